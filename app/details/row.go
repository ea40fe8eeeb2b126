package details

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// row is one line of a form: a label and what edits one field of a record.
type row[R any] struct {
	label string       // within a sentence
	show  func(R) bool // nil: always
	build func(t target[R], tell func(string)) control

	// value is the number that the row edits, and mark what is unusual about the
	// value now; nil where the row has neither.
	value func(R) float64
	mark  func(R, unit.Convention) string

	first bool // its field is the one that is wanted most

	help string // what the field is, in a sentence

	placed bool // it says how a protector is installed, which one of a library does not
}

// control is what edits a field.
type control struct {
	object  fyne.CanvasObject
	fields  []fyne.Focusable // what of it takes the focus
	refresh func()           // shows the value of the document; nil where there is none
	commit  func()           // takes what is typed and not yet handed over; may be nil
}

// when returns the row shown only for records that the test accepts.
func (r row[R]) when(test func(R) bool) row[R] {
	r.show = test
	return r
}

// installed returns the row as one that says how a protector is installed.
func (r row[R]) installed() row[R] {
	r.placed = true
	return r
}

// foremost returns the row as the one whose field is wanted most.
func (r row[R]) foremost() row[R] {
	r.first = true
	return r
}

// explained returns the row with what its field is, in sentences.
func (r row[R]) explained(help string) row[R] {
	r.help = help
	return r
}

// labelled returns the row with a label.
func (r row[R]) labelled(words string) row[R] {
	r.label = words
	return r
}

// hint returns the row of a field to type in with words that stand in it while
// it is empty.
func (r row[R]) hint(words string) row[R] {
	return r.with(func(e *entry) { e.hint(words) })
}

// with returns the row of a field to type in with the field set up further.
func (r row[R]) with(setUp func(*entry)) row[R] {
	build := r.build
	r.build = func(t target[R], tell func(string)) control {
		c := build(t, tell)
		setUp(c.object.(*entry))
		return c
	}
	return r
}

// heading is a row without a control.
func heading[R any](label string) row[R] { return row[R]{label: label} }

// typed is a row with a field to type in.
func typed[R any](label string, read func(R, unit.Convention) string, write func(*R, string, unit.Convention) error) row[R] {
	return typedIn(label, unit.Ratio, read, write)
}

// typedIn is typed for a number of the dimension.
func typedIn[R any](label string, d unit.Dimension, read func(R, unit.Convention) string, write func(*R, string, unit.Convention) error) row[R] {
	return row[R]{label: label, build: func(t target[R], tell func(string)) control {
		bound := func(v float64) string { return unit.Format(v, d, t.convention) }
		text := func(r R) string { return read(r, t.convention) }
		var e *entry
		e = newEntry(
			func() (string, bool) {
				if varies(t, text) {
					return "", true
				}
				record, _ := t.get()
				return text(record), false
			},
			func(text string) error {
				return outOfBounds(label, bound, e.refused(label, t.convention, commitText(t, label, text, write)))
			},
			tell)
		return control{object: e, fields: []fyne.Focusable{e}, refresh: e.refresh, commit: e.take}
	}}
}

// commitText tries the text on a copy first, so that a wrong entry makes no
// change.
func commitText[R any](t target[R], label, text string, write func(*R, string, unit.Convention) error) error {
	record, ok := t.get()
	if !ok {
		return nil
	}
	if err := write(&record, text, t.convention); err != nil {
		return err
	}
	return t.set("change "+label, func(r *R) { _ = write(r, text, t.convention) })
}

// several returns the row of a text as one of several lines.
func several[R any](text row[R]) row[R] {
	return text.with(func(e *entry) {
		e.MultiLine = true
		e.Wrapping = fyne.TextWrapWord
		e.SetMinRowsVisible(3)
	})
}

// quantity is a number with a unit. Nothing typed means not known, which is
// zero.
func quantity[R any](label string, d unit.Dimension, field func(*R) *float64) row[R] {
	return quantityOf(label, d,
		func(r R) float64 { return *field(&r) },
		func(r *R, v float64) { *field(r) = v })
}

func quantityOf[R any](label string, d unit.Dimension, get func(R) float64, set func(*R, float64)) row[R] {
	out := typedIn(label, d,
		func(r R, c unit.Convention) string { return quantityText(get(r), d, c) },
		func(r *R, s string, c unit.Convention) error {
			v, err := parseQuantity(s, d, c)
			if err == nil {
				set(r, v)
			}
			return err
		}).in(d).hint("not known").with(short)
	out.value = get
	return out
}

// length is a quantity that is always stated: an empty field would count as none,
// which is the best case.
func length[R any](label string, d unit.Dimension, field func(*R) *float64) row[R] {
	out := typedIn(label, d,
		func(r R, c unit.Convention) string { return quantityText(*field(&r), d, c) },
		func(r *R, s string, c unit.Convention) error {
			v, err := parseLength(s, d, c)
			if err == nil {
				*field(r) = v
			}
			return err
		}).in(d).hint("").with(short)
	out.value = func(r R) float64 { return *field(&r) }
	return out
}

// parseLength is parseQuantity where nothing typed is refused.
func parseLength(s string, d unit.Dimension, c unit.Convention) (float64, error) {
	if strings.TrimSpace(s) == "" {
		return 0, unit.Must{Wanted: unit.Wanted(d, c), Such: unit.Such(d, c), None: true}
	}
	return parseQuantity(s, d, c)
}

// in returns the row of a field to type in as one that shows the unit of a number
// alone while it is empty.
func (r row[R]) in(d unit.Dimension) row[R] {
	build := r.build
	r.build = func(t target[R], tell func(string)) control {
		c := build(t, tell)
		c.object.(*entry).unit = unit.UnitName(d, t.convention)
		return c
	}
	return r
}

// usual returns the row as one that marks what is unusual of the figure.
func (r row[R]) usual(f diagram.Figure) row[R] {
	usual, value := f.Usual(), r.value
	r = r.example(f)
	r.mark = func(record R, c unit.Convention) string { return usual.Mark(value(record), c) }
	return r
}

// example returns the row of a field to type in as one whose messages offer what
// is usual of the figure.
func (r row[R]) example(f diagram.Figure) row[R] {
	usual := f.Usual()
	return r.with(func(e *entry) { e.figure = &usual })
}

// short is a field whose text mostly has room: it does not scroll then, so that the
// wheel moves the form.
func short(e *entry) {
	fit := func(text string) {
		before := e.Scroll
		e.Scroll = fyne.ScrollNone
		if e.isLong(text) {
			e.Scroll = unbarred
		}
		if e.Scroll != before {
			e.Refresh()
		}
	}
	e.OnChanged = fit
	fit(e.Text)
}

func quantityText(v float64, d unit.Dimension, c unit.Convention) string {
	if v == 0 && d != unit.Length && d != unit.LeadLength {
		return ""
	}
	return unit.FormatEntry(v, d, c)
}

func parseQuantity(s string, d unit.Dimension, c unit.Convention) (float64, error) {
	if strings.TrimSpace(s) == "" {
		return 0, nil
	}
	v, err := unit.Parse(s, d, c)
	switch {
	case err != nil:
		return 0, unit.Must{Wanted: unit.Wanted(d, c), Such: unit.Such(d, c), Typed: s}
	case v < 0:
		return 0, unit.Must{Wanted: "0 or more", Such: unit.Such(d, c), Typed: s}
	}
	return v, nil
}

// count is a whole number.
func count[R any](label string, high int, field func(*R) *int) row[R] {
	return typed(label,
		func(r R, _ unit.Convention) string {
			if *field(&r) == 0 {
				return ""
			}
			return strconv.Itoa(*field(&r))
		},
		func(r *R, s string, _ unit.Convention) error {
			n, err := parseCount(s, high)
			if err == nil {
				*field(r) = n
			}
			return err
		}).with(short)
}

func parseCount(s string, high int) (int, error) {
	s = strings.TrimSpace(s)
	if s == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 || n > high {
		return 0, unit.Must{Wanted: fmt.Sprintf("a whole number from 0 to %d", high), Typed: s}
	}
	return n, nil
}

// toggle is a yes or no.
func toggle[R any](label string, field func(*R) *bool) row[R] {
	return check(unit.SentenceCase(label), "change "+label, field)
}

// check is toggle under a label of its own in the history.
func check[R any](label, entry string, field func(*R) *bool) row[R] {
	return row[R]{build: func(t target[R], tell func(string)) control {
		check := look.NewCheck(label, nil)
		is := func(r R) bool { return *field(&r) }
		now := func() bool { record, _ := t.get(); return is(record) }
		check.Checked, check.Partial = now(), varies(t, is)
		refresh := func() { // not as if somebody had pressed it: of several that vary that would set all
			if on, partly := now(), varies(t, is); on != check.Checked || partly != check.Partial {
				check.Checked, check.Partial = on, partly
				check.Refresh()
			}
		}
		check.OnChanged = func(on bool) {
			if on != now() || varies(t, is) {
				report(tell, t.set(entry, func(r *R) { *field(r) = on }))
				refresh() // back to what it was where the change was refused
			}
		}
		return control{object: check, fields: []fyne.Focusable{check}, refresh: refresh}
	}}
}

func report(tell func(string), err error) {
	if err != nil {
		tell(err.Error())
		return
	}
	tell("")
}
