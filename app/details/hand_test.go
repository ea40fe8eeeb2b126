package details

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// bench is an editor with one record and the form of it.
type bench[R comparable] struct {
	t      *testing.T
	editor *edit.Editor
	target target[R]
	grips  []grip
}

// grip is one control of a form and the words by which a person finds it.
type grip struct {
	name    string // "heading: label" where there is a heading
	object  fyne.CanvasObject
	refresh func()
	message *string // beneath it
	shown   bool
}

// put makes a document of the records.
func put(t *testing.T, records ...any) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for _, record := range records {
			diagramtest.Put(tx, record)
		}
	})
}

// newBench builds the rows of the record that aim finds.
func newBench[R comparable](t *testing.T, doc *diagram.Document, aim func(Editor) target[R], rows []row[R]) *bench[R] {
	t.Helper()
	test.NewTempApp(t)
	b := &bench[R]{t: t, editor: edit.New(doc, edit.Options{})}
	b.target = aim(b.editor)
	b.grips = gripsOf(b.target, rows)
	return b
}

func gripsOf[R any](t target[R], rows []row[R]) []grip {
	var out []grip
	heading := ""
	for _, r := range rows {
		if r.build == nil {
			heading = r.label + ": "
			continue
		}
		message := new(string)
		c := r.build(t, func(text string) { *message = text })
		record, _ := t.get()
		for i, field := range c.fields {
			name := unit.SentenceCase(r.label)
			if check, ok := field.(*look.Check); ok {
				name = strings.TrimSpace(unit.SentenceCase(r.label) + " " + check.Text)
			}
			if len(c.fields) > 1 {
				name = fmt.Sprintf("%s #%d", name, i+1)
			}
			out = append(out, grip{heading + name, field.(fyne.CanvasObject), c.refresh, message, r.show == nil || r.show(record)})
		}
	}
	return out
}

// find returns the control with the name.
func (b *bench[R]) find(name string) grip {
	b.t.Helper()
	var names []string
	for _, g := range b.grips {
		if g.name == name {
			return g
		}
		names = append(names, g.name)
	}
	b.t.Fatalf("no row is called %q, only %q", name, names)
	return grip{}
}

func (b *bench[R]) record() R {
	record, _ := b.target.get()
	return record
}

// enter does what a person does to set the control to something.
func (g grip) enter(text string) {
	switch o := g.object.(type) {
	case *entry:
		o.FocusGained()
		o.SetText(text)
		o.FocusLost()
	case *look.Select:
		o.SetSelected(text)
	case *look.Check:
		o.SetChecked(text == "yes")
	case *widget.Slider:
		metres, _ := strconv.ParseFloat(text, 64)
		o.SetValue(metres)
	}
}

// text returns what the control shows.
func (g grip) text() string {
	switch o := g.object.(type) {
	case *entry:
		return o.Text
	case *look.Select:
		return o.Selected
	case *look.Check:
		return map[bool]string{true: "yes", false: "no"}[o.Checked]
	case *widget.Slider:
		return strconv.FormatFloat(o.Value, 'f', 4, 64)
	}
	return ""
}

// leaves returns the value of every plain field by its path, such as
// "System.Voltage".
func leaves(record any) map[string]any {
	out := map[string]any{}
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		case reflect.Array:
			for i := range v.Len() {
				walk(fmt.Sprintf("%s.%d", path, i), v.Index(i))
			}
		default:
			out[strings.TrimPrefix(path, ".")] = v.Interface()
		}
	}
	walk("", reflect.ValueOf(record))
	return out
}

// changed returns the paths at which two records differ.
func changed(before, after any) []string {
	var out []string
	was := leaves(before)
	for path, value := range leaves(after) {
		if value != was[path] {
			out = append(out, path)
		}
	}
	return out
}

// under reports whether the path is one of the places or lies within one.
func under(path, places string) bool {
	for _, place := range strings.Fields(places) {
		if path == place || strings.HasPrefix(path, place+".") {
			return true
		}
	}
	return false
}

var conventions = [...]unit.Convention{unit.NorthAmerican, unit.IEC}

// inConvention returns the name of a row as the convention has it.
func inConvention(name string, c unit.Convention) string {
	if c != unit.IEC {
		return name
	}
	return strings.NewReplacer("Grounding", "Earthing", "Line-to-ground", "Line-to-earth", "Ground lead", "Earth lead", "to ground", "to earth", "Occupancy", "Building serves", "Ground-fault protection", "Residual-current device",
		"L-G", "L-PE", "N-G", "N-PE", "ungrounded", "unearthed", "aluminum", "aluminium").Replace(name)
}

func valueOf(record any) reflect.Value { return reflect.ValueOf(record) }

// into returns a field of a struct or an element of an array.
func into(v reflect.Value, step string) reflect.Value {
	if v.Kind() == reflect.Array {
		i, _ := strconv.Atoi(step)
		return v.Index(i)
	}
	return v.FieldByName(step)
}

// fixed hands the document to rows that look at all of it.
func fixed(doc *diagram.Document) func() *diagram.Document {
	return func() *diagram.Document { return doc }
}
