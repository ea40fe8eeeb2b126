package details

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// Where the pointer rests on a label it is said what the field is, until it is gone;
// a message about a wrong entry goes before.
func TestLabelsAreExplained(t *testing.T) {
	test.NewTempApp(t)
	before, rested := afterRest, func() {}
	afterRest = func(f func()) func() bool { rested = f; return func() bool { return true } }
	t.Cleanup(func() { afterRest = before })
	e := edit.New(put(t, diagram.Part{ID: "x", Kind: diagram.Panel}), edit.Options{})
	f := newForm(partTarget(e, "x", unit.NorthAmerican), partRows(diagram.Panel, unit.NorthAmerican, e.Document), folds{})
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
	at.hover(true)
	if f.help.object.Visible() {
		t.Error("it hides a message")
	}
}
