package app

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/unit"
)

// longFeeders is the finding of one feeder that is too long, with the change
// that makes it shorter.
func longFeeder(id diagram.ID) analysis.Finding {
	return analysis.Finding{
		Rule: "length.long", Severity: analysis.Warning, Subject: "length", Records: []diagram.ID{id}, What: "Feeder " + string(id) + " is long",
		Mend: analysis.MendFeeder(id, "shorten the feeder", "", func(f *diagram.Feeder) { f.Length = 1 }),
	}
}

// found is the house with a result that has these findings besides its own.
func found(t *testing.T, findings ...analysis.Finding) *App {
	t.Helper()
	a := start(t)
	a.workOn(house(t), "")
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
func buttonOf(t *testing.T, a *App, begin string) *look.Button {
	t.Helper()
	for _, b := range all[*look.Button](a.findings.Object()) {
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
	if got := a.status.doing.Text; got != "Mended: 2 findings, 2 feeders changed. Ctrl+Z takes it back." {
		t.Errorf("the status line says %q", got)
	}
	run(t, a, "undo")
	if a.editor.CanUndo() || lengthOf(a, "feeder-1") == 1 || lengthOf(a, "feeder-2") == 1 {
		t.Error("one undo does not take all of it back")
	}
}

// How many findings there were and what was changed are not the same: one
// protector may do for two of them.
func TestMendedText(t *testing.T) {
	place := func(bus diagram.ID) analysis.Mend {
		return analysis.NewMend("place the usual protector on it", "", func(tx *diagram.Tx) error {
			tx.SetProtector(diagram.Protector{ID: "protector-" + bus, Plan: diagram.FirstPlan, Bus: bus})
			return nil
		})
	}
	finding := func(m analysis.Mend) analysis.Finding { return analysis.Finding{Mend: m} }
	shorter := longFeeder("feeder-1")
	for _, row := range []struct {
		name     string
		findings []analysis.Finding
		want     string
	}{
		{"one", []analysis.Finding{shorter}, "shorten the feeder"},
		{"two of one feeder", []analysis.Finding{shorter, shorter}, "2 findings, 1 feeder changed"},
		{"three, two placed", []analysis.Finding{finding(place("panel-1")), finding(place("load-1")), finding(place("load-1"))}, "3 findings, 2 protectors placed"},
		{"of two kinds", []analysis.Finding{finding(place("panel-1")), shorter}, "2 findings, 1 protector placed, 1 feeder changed"},
	} {
		doc := house(t)
		before := doc.Snapshot()
		for _, f := range row.findings {
			if _, err := doc.Edit(f.Mend.Apply); err != nil {
				t.Fatal(err)
			}
		}
		if got := mendedText(row.findings, before, doc, unit.NorthAmerican); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

// protected is the house with a protector in the plan as found, and a finding
// about it that one click would mend.
func protected(t *testing.T) *App {
	t.Helper()
	a := start(t)
	a.workOn(house(t), "")
	if err := a.editor.Change("attach", func(tx *diagram.Tx) error {
		tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD 1"})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	list(a, twisting("protector-1"))
	a.findings.ShowFirst()
	return a
}

// list shows findings as those of a new result.
func list(a *App, findings ...analysis.Finding) {
	result := *a.judgement.result
	result.Findings = findings
	a.judgement.result = &result
	a.refresh()
}

func twisting(id diagram.ID) analysis.Finding {
	return analysis.Finding{
		Rule: "leads.long", Severity: analysis.Error, Subject: "leads", Records: []diagram.ID{id}, What: "The leads of SPD 1 are long",
		Mend: analysis.MendProtector(id, "shorten the leads of …", "SPD 1", func(p *diagram.Protector) { p.Leads.Phase.Length = 0.1 }),
	}
}

// To mend what the plan as found records is to rewrite that, and it is said
// before and afterwards.
func TestMendOfTheRecord(t *testing.T) {
	a := protected(t)
	const note = "Changes what plan “As found” records, not the building. To keep what was found, duplicate the plan first."
	if got := wordsOf(a.findings.Object()); !strings.Contains(strings.ReplaceAll(got, "\n", " "), note) {
		t.Errorf("the findings say %q", got)
	}
	test.Tap(buttonOf(t, a, "Mend it"))
	if got := a.status.doing.Text; got != "Mended: in the record of “As found”, shorten the leads of SPD 1. "+takesBack {
		t.Errorf("the status line says %q", got)
	}
}

// The copy is shown, and there nothing warns of a change; the plan as found
// stays as it is.
func TestDuplicateThePlanFirst(t *testing.T) {
	a := protected(t)
	test.Tap(buttonOf(t, a, "Duplicate plan first"))
	plan := a.editor.Plan()
	if plan == diagram.FirstPlan {
		t.Fatal("the copy is not shown")
	}
	if got := a.status.doing.Text; got != "Plan 2 is a copy of “As found”, which stays as it is." {
		t.Errorf("the status line says %q", got)
	}
	var copied diagram.Protector
	for p := range a.editor.Document().ProtectorsOf(plan) {
		copied = p
	}
	list(a, twisting(copied.ID), longFeeder("feeder-1"))
	a.findings.ShowFirst()
	if strings.Contains(wordsOf(a.findings.Object()), "Duplicate plan first") {
		t.Error("in the copy it is offered again")
	}
	test.Tap(buttonOf(t, a, "Mend it: shorten the leads"))
	kept, _ := a.editor.Document().Protector("protector-1")
	mended, _ := a.editor.Document().Protector(copied.ID)
	if kept.Leads.Phase.Length != 0 || mended.Leads.Phase.Length != 0.1 {
		t.Errorf("the leads are %g m as found and %g m in the copy", kept.Leads.Phase.Length, mended.Leads.Phase.Length)
	}
	if got := a.status.doing.Text; !strings.HasPrefix(got, "Mended: shorten the leads of SPD 1.") {
		t.Errorf("the status line says %q", got)
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

// A finding is the same one in other words, and another one where another rule says
// the same.
func TestMendOfAFindingInOtherWords(t *testing.T) {
	now := longFeeder("feeder-1")
	now.What = "Feeder feeder-1 is 12 m long"
	a := found(t, now)
	other := longFeeder("feeder-1")
	other.Rule, other.What = "length.unusual", now.What
	a.mend([]analysis.Finding{other})
	if lengthOf(a, "feeder-1") == 1 {
		t.Error("it was mended by another rule")
	}
	a.mend([]analysis.Finding{longFeeder("feeder-1")})
	if lengthOf(a, "feeder-1") != 1 {
		t.Error("it was not mended, since it says something else now")
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
	a.workOn(house(t), "")
	stays := a.judgement.result.Findings[0]
	stays.Mend = analysis.MendFeeder("feeder-1", stays.Mend.Kind, "", func(f *diagram.Feeder) { f.Length = 11 })
	a.mend([]analysis.Finding{stays})
	if got := a.status.doing.Text; !strings.Contains(got, "but 1 finding is still there. "+takesBack) {
		t.Errorf("the status line says %q", got)
	}
}
