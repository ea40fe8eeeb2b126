package details

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// TestRows enters something in every row of every record in both conventions.
func TestRows(t *testing.T) {
	for _, s := range subjects() {
		for _, c := range conventions {
			t.Run(s.name+" "+c.String(), func(t *testing.T) { s.check(t, c, s.settings) })
		}
	}
}

// checkAll checks each setting by itself, and that no row was left out.
func checkAll[R comparable](t *testing.T, doc *diagram.Document, aim func(Editor) target[R], rows []row[R], c unit.Convention, settings []setting) {
	t.Helper()
	entered := map[string]bool{}
	fields := map[string]string{}
	for _, s := range settings {
		s.row, s.enter = inConvention(s.row, c), inConvention(s.enter, c)
		entered[s.row] = true
		fields[s.row] += " " + s.field
	}
	for _, s := range settings {
		s.row, s.enter = inConvention(s.row, c), inConvention(s.enter, c)
		t.Run(s.row+" = "+s.enter, func(t *testing.T) {
			b := newBench(t, doc.Snapshot(), aim, rows)
			b.set(s, fields)
		})
	}
	newBench(t, doc.Snapshot(), aim, rows).wantsExamples(t, rows)
	for _, g := range newBench(t, doc.Snapshot(), aim, rows).grips {
		if g.shown && !entered[g.name] {
			t.Errorf("nothing is entered in the row %q", g.name)
		}
	}
}

// set enters the setting: exactly its field changes, in one entry of the
// history, no other row shows anything else, and undo restores all.
func (b *bench[R]) set(s setting, fields map[string]string) {
	t := b.t
	t.Helper()
	g, before, texts := b.find(s.row), b.record(), b.texts()
	if !g.shown {
		t.Fatal("the row is hidden")
	}
	g.enter(s.enter)
	after := b.record()
	if *g.message != "" || len(changed(before, after)) == 0 {
		t.Fatalf("nothing changed; the message is %q", *g.message)
	}
	for _, path := range changed(before, after) {
		if !under(path, s.field) {
			t.Errorf("%s changed as well", path)
		}
	}
	for _, place := range strings.Fields(s.field) {
		if got := at(after, place); !same(got, s.want) {
			t.Errorf("%s: got %v, want %v", place, got, s.want)
		}
	}
	for name, text := range b.texts() {
		if text != texts[name] && b.find(name).shown && !overlap(fields[name], s.field) {
			t.Errorf("the row %q went from %q to %q", name, texts[name], text)
		}
	}
	b.undo(g, before, texts[s.row])
	b.again(g)
}

// undo takes the change back, which was one entry, and does it again.
func (b *bench[R]) undo(g grip, before R, text string) {
	b.t.Helper()
	after := b.record()
	if label := b.editor.UndoLabel(); !strings.HasPrefix(label, "change ") {
		b.t.Errorf("the entry is called %q", label)
	}
	b.editor.Undo()
	g.refresh()
	if b.record() != before || b.editor.CanUndo() || g.text() != text {
		b.t.Errorf("undo leads to %+v shown as %q, want %q; more to undo: %t", b.record(), g.text(), text, b.editor.CanUndo())
	}
	b.editor.Redo()
	g.refresh()
	if b.record() != after {
		b.t.Errorf("redo leads to %+v, want %+v", b.record(), after)
	}
}

// again enters what the row shows, which must change nothing.
func (b *bench[R]) again(g grip) {
	b.t.Helper()
	before, shown := b.record(), g.text()
	if e, ok := g.object.(*entry); ok {
		e.shown = "" // as if something else had been there
	}
	g.enter(shown)
	for _, path := range changed(before, b.record()) {
		if was, is := at(before, path), at(b.record(), path); !same(was, is) {
			b.t.Errorf("%s: the row shows %v as %q and reads %v", path, was, shown, is)
		}
	}
}

// texts returns what each row shows, in controls made anew.
func (b *bench[R]) texts() map[string]string {
	out := map[string]string{}
	for _, g := range b.grips {
		g.refresh()
		out[g.name] = g.text()
	}
	return out
}

// at returns the value at the path of a record, which may be a group.
func at(record any, path string) any {
	v := valueOf(record)
	for _, step := range strings.Split(path, ".") {
		v = into(v, step)
	}
	return v.Interface()
}

// same compares values; numbers may differ as the text of a quantity does: an
// entry shows five figures, or a gauge within 1.5 % (unit.FormatEntry).
func same(got, want any) bool {
	g, ok := got.(float64)
	w, also := want.(float64)
	if ok && also {
		return math.Abs(g-w) <= 5e-5*math.Abs(w)
	}
	return got == want
}

func overlap(a, b string) bool {
	for _, place := range strings.Fields(a) {
		for _, other := range strings.Fields(b) {
			if under(place, other) || under(other, place) {
				return true
			}
		}
	}
	return false
}

// TestEveryFieldHasARow goes through the exported fields of the records: each
// can be edited in the form, or is named here with the reason why not.
func TestEveryFieldHasARow(t *testing.T) {
	const byProgram, onSheet, unknown = "given by the program", "edited on the sheet", "not of this program"
	exempt := map[string]map[string]string{
		"part":   {"ID": byProgram, "Kind": byProgram, "Extra": unknown, "At.X": onSheet, "At.Y": onSheet, "Turn": onSheet, "Span": onSheet},
		"feeder": {"ID": byProgram, "Extra": unknown, "From.Part": onSheet, "From.Port": onSheet, "To.Part": onSheet, "To.Port": onSheet},
		"protector": {"ID": byProgram, "Extra": unknown, "Plan": onSheet, "Bus": onSheet, "Offset": onSheet,
			"Modes.0.Connected": "follows the level", "Modes.1.Connected": "follows the level", "Modes.2.Connected": "follows the level", "Modes.3.Connected": "follows the level"},
		"plan":  {"ID": byProgram, "Extra": unknown, "Order": byProgram, "Locked": byProgram, "Of": byProgram},
		"info":  {"Extra": unknown},
		"surge": {"ID": byProgram, "Extra": unknown, "Order": byProgram},
	}
	records := map[string]any{"part": diagram.Part{}, "feeder": diagram.Feeder{}, "protector": diagram.Protector{}, "plan": diagram.Plan{}, "info": diagram.Info{}, "surge": diagram.Surge{}}
	edited := map[string][]string{}
	for _, s := range subjects() {
		sort, _, _ := strings.Cut(s.name, " under")
		if _, ok := records[sort]; !ok {
			sort = "part"
		}
		for _, one := range s.settings {
			edited[sort] = append(edited[sort], strings.Fields(one.field)...)
		}
	}
	for sort, record := range records {
		for path := range leaves(record) {
			_, excused := exempt[sort][path]
			if has := slices.Contains(edited[sort], path); has == excused {
				t.Errorf("%s %s: has a row: %t, excused: %t", sort, path, has, excused)
			}
		}
		for path := range exempt[sort] {
			if _, ok := leaves(record)[path]; !ok {
				t.Errorf("%s has no field %s to be excused", sort, path)
			}
		}
	}
}

// A part of each kind has a form.
func TestEveryKindIsASubject(t *testing.T) {
	for _, kind := range diagram.Kinds() {
		if !slices.ContainsFunc(subjects(), func(s subject) bool { return strings.HasPrefix(s.name, string(kind)) }) {
			t.Errorf("nothing is entered for a %s", kind)
		}
	}
}

// A label has room beside its field, in the words of either convention.
func TestLabelsFit(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	doc := diagram.New()
	for _, c := range conventions {
		labels := slices.Concat(
			labelsIn(infoRows(c)), labelsIn(codesRows(c, fixed(doc))), labelsIn(planRows(c)), labelsIn(feederRows(c)),
			labelsIn(protectorRows(c)), labelsIn(surgeRows(c, fixed(doc))))
		for _, kind := range diagram.Kinds() {
			labels = append(labels, labelsIn(partRows(kind, c, fixed(doc)))...)
		}
		for _, label := range labels {
			first, rest := broken(label)
			size := theme.Size(theme.SizeNameText)
			if rest != "" {
				size = theme.Size(look.SizeSmall)
			}
			for _, text := range []string{first, rest} {
				if wide := fyne.MeasureText(text, size, fyne.TextStyle{}).Width; wide > labelWidth-labelGap {
					t.Errorf("%v: %q of the label %q is %g wide, and %d are there", c, text, label, wide, labelWidth-labelGap)
				}
			}
		}
	}
}

// labelsIn returns the labels beside fields.
func labelsIn[R any](rows []row[R]) []string {
	var out []string
	for _, r := range rows {
		if r.build != nil {
			out = append(out, unit.SentenceCase(r.label))
		}
	}
	return out
}
