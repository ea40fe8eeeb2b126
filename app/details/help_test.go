package details

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// Where the pointer rests on a label it is said what the field is, until it is gone;
// a message about a wrong entry goes before.
func TestLabelsAreExplained(t *testing.T) {
	test.NewTempApp(t)
	before, rested := look.AfterRest, func() {}
	look.AfterRest = func(f func()) func() bool { rested = f; return func() bool { return true } }
	t.Cleanup(func() { look.AfterRest = before })
	e := edit.New(put(t, diagram.Part{ID: "x", Kind: diagram.Panel}), edit.Options{})
	f := newForm(partTarget(e, []diagram.ID{"x"}, unit.NorthAmerican), partRows(diagram.Panel, unit.NorthAmerican, e.Document), folds{})
	var at *line
	for _, l := range f.lines {
		if l.words == "Main breaker" {
			at = l
		}
	}
	at.MouseIn(nil)
	if f.help.object.Visible() {
		t.Error("it is there before the pointer has rested")
	}
	rested()
	if got := f.help.label.Text; !strings.HasSuffix(got, "rated for. Left empty: lugs only or not known.") {
		t.Errorf("got %q", got)
	}
	at.MouseOut()
	rested() // too late
	if f.help.object.Visible() {
		t.Error("it stays when the pointer is gone")
	}
	f.tell("wrong", at)
	at.rest.Explain(true)
	if f.help.object.Visible() {
		t.Error("it hides a message")
	}
}

// Every line of every form says what it is, in a sentence.
func TestEveryLineIsExplained(t *testing.T) {
	doc := put(t, diagram.Part{ID: "x", Kind: diagram.Panel})
	document := func() *diagram.Document { return doc }
	for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
		for _, kind := range diagram.Kinds() {
			sayWhat(t, partRows(kind, c, document))
		}
		sayWhat(t, feederRows(c))
		sayWhat(t, protectorRows(c))
		sayWhat(t, entryRows(c))
		sayWhat(t, surgeRows(c, document))
		sayWhat(t, infoRows(c))
		sayWhat(t, codesRows(c, document))
		sayWhat(t, planRows(c))
	}
}

func sayWhat[R any](t *testing.T, rows []row[R]) {
	t.Helper()
	for _, r := range rows {
		if r.build != nil && (len(r.help) < 12 || !strings.HasSuffix(r.help, ".")) {
			t.Errorf("the field %q is explained by %q", r.label, r.help)
		}
	}
}

// A hint that is taken away leaves nothing that is laid out: the list is scrolled, or a
// choice takes the line away that the pointer is on.
func TestHintTakenAwayIsAboutNothing(t *testing.T) {
	s := newShower(t, house(t))
	s.show("load-1")
	for _, f := range s.forms {
		f.explain(true, "What it is.", f.lines[0])
		f.explain(false, "", nil)
		f.help.object.Resize(fyne.NewSize(200, 200))
		f.help.object.Refresh()
		if f.help.at != nil {
			t.Error("it is still about a line")
		}
	}
}
