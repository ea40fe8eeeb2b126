package app

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/edit/edittest"
)

// longFeeders is the finding of one feeder that is too long, with the change
// that makes it shorter.
func longFeeder(id diagram.ID) analysis.Finding {
	return analysis.Finding{
		Severity: analysis.Warning, Subject: "length", Records: []diagram.ID{id}, What: "Feeder " + string(id) + " is long",
		Mend: analysis.MendFeeder(id, "shorten the feeder", func(f *diagram.Feeder) { f.Length = 1 }),
	}
}

// found is the house with a result that has these findings besides its own.
func found(t *testing.T, findings ...analysis.Finding) *App {
	t.Helper()
	a := start(t)
	a.take(house(t), "")
	result := *a.judgement.result
	result.Findings = append(findings, result.Findings...)
	a.judgement.result = &result
	a.refresh()
	a.findings.ShowFirst()
	return a
}

func lengthOf(a *App, id diagram.ID) float64 {
	f, _ := a.editor.Document().Feeder(id)
	return f.Length
}

// buttonOf returns the button of the findings that begins with a text.
func buttonOf(t *testing.T, a *App, begin string) *widget.Button {
	t.Helper()
	for _, b := range all[*widget.Button](a.findings.Object()) {
		if strings.HasPrefix(b.Text, begin) {
			return b
		}
	}
	t.Fatalf("there is no button %q …", begin)
	return nil
}

// One click mends, one undo takes it back, and the status line says so.
func TestMendOne(t *testing.T) {
	a := found(t, longFeeder("feeder-1"), longFeeder("feeder-2"))
	before := edittest.Text(t, a.editor.Document())
	asked := a.judgement.result
	test.Tap(buttonOf(t, a, "Mend it: shorten the feeder"))
	if lengthOf(a, "feeder-1") != 1 || lengthOf(a, "feeder-2") == 1 {
		t.Errorf("the feeders are %g and %g m long, want the first one mended", lengthOf(a, "feeder-1"), lengthOf(a, "feeder-2"))
	}
	if got := a.status.doing.Text; got != "Mended: shorten the feeder. Ctrl+Z takes it back." {
		t.Errorf("the status line says %q", got)
	}
	if got := a.editor.UndoLabel(); got != "shorten the feeder" {
		t.Errorf("undo would take back %q", got)
	}
	if a.judgement.result == asked {
		t.Error("it is not judged anew")
	}
	run(t, a, "undo")
	if edittest.Text(t, a.editor.Document()) != before || a.editor.CanUndo() {
		t.Error("one undo does not take it back")
	}
}

func TestMendAllLikeIt(t *testing.T) {
	a := found(t, longFeeder("feeder-1"), longFeeder("feeder-2"))
	test.Tap(buttonOf(t, a, "Mend all 2 like this"))
	if lengthOf(a, "feeder-1") != 1 || lengthOf(a, "feeder-2") != 1 {
		t.Errorf("the feeders are %g and %g m long, want both mended", lengthOf(a, "feeder-1"), lengthOf(a, "feeder-2"))
	}
	if got := a.status.doing.Text; got != "Mended: shorten the feeder (2 times). Ctrl+Z takes it back." {
		t.Errorf("the status line says %q", got)
	}
	run(t, a, "undo")
	if a.editor.CanUndo() || lengthOf(a, "feeder-1") == 1 || lengthOf(a, "feeder-2") == 1 {
		t.Error("one undo does not take all of it back")
	}
}

// What the newest result does not have any more is not mended.
func TestMendOfAnOldFinding(t *testing.T) {
	a := found(t, longFeeder("feeder-1"))
	change(t, a, "Mains") // and so judged anew, without the finding
	a.mend([]analysis.Finding{longFeeder("feeder-1")})
	if lengthOf(a, "feeder-1") == 1 || a.editor.UndoLabel() != "rename" {
		t.Error("it was mended by an old result")
	}
	if got := a.status.doing.Text; !strings.HasPrefix(got, "Nothing was changed") {
		t.Errorf("the status line says %q", got)
	}
}

// While a result is due the button is off, and what is asked for waits for it.
func TestMendWaitsForTheResult(t *testing.T) {
	a := found(t, longFeeder("feeder-1"))
	h := &held{}
	a.judge.run = h.executor()
	change(t, a, "Mains")
	if !buttonOf(t, a, "Mend it").Disabled() {
		t.Error("with a result to come the button can be pressed")
	}
	a.mend([]analysis.Finding{longFeeder("feeder-1")})
	if lengthOf(a, "feeder-1") == 1 {
		t.Error("it was mended ahead of the result")
	}
	for h.next() {
	}
	if lengthOf(a, "feeder-1") == 1 {
		t.Error("it was mended, though the result does not have it any more")
	}
}

// A change that is refused leaves everything as it was, and says why.
func TestMendThatFails(t *testing.T) {
	bad := longFeeder("feeder-1")
	bad.Mend.Apply = func(*diagram.Tx) error { return errors.New("the feeder is locked") }
	a := found(t, longFeeder("feeder-2"), bad)
	a.mend([]analysis.Finding{longFeeder("feeder-2"), bad})
	says(t, a, "the feeder is locked")
	if lengthOf(a, "feeder-2") == 1 || a.editor.CanUndo() {
		t.Error("half of it was done")
	}
}

// A record that is gone by then is left alone.
func TestMendOfWhatIsGone(t *testing.T) {
	a := found(t, longFeeder("feeder-9"))
	a.mend([]analysis.Finding{longFeeder("feeder-9")})
	if got := a.status.doing.Text; !strings.HasPrefix(got, "Nothing was changed") || a.editor.CanUndo() {
		t.Errorf("the status line says %q", got)
	}
}

// Where a change does not take the finding away, the status line says so.
func TestMendThatDoesNotHelp(t *testing.T) {
	a := start(t)
	a.take(house(t), "")
	stays := a.judgement.result.Findings[0]
	stays.Mend = analysis.MendFeeder("feeder-1", "", func(f *diagram.Feeder) { f.Length = 11 })
	a.mend([]analysis.Finding{stays})
	if got := a.status.doing.Text; !strings.Contains(got, "but the finding is still there. "+takesBack) {
		t.Errorf("the status line says %q", got)
	}
}
