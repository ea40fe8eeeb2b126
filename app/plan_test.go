package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"

	"clampline/diagram"
)

func TestPlans(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	check := func(when string, names []string, shown string) {
		t.Helper()
		if !slices.Equal(a.bar.plan.Options, names) || a.bar.plan.Selected != shown {
			t.Errorf("%s: got %q of %q, want %q of %q", when, a.bar.plan.Selected, a.bar.plan.Options, shown, names)
		}
		if plan, _ := a.editor.Document().Plan(a.editor.Plan()); plan.Name != strings.TrimSuffix(shown, lockedWord) || a.judgement.plan != plan.ID {
			t.Errorf("%s: the editor shows %q, the result is of %s", when, plan.Name, a.judgement.plan)
		}
	}
	check("at first", []string{"As found"}, "As found")
	run(t, a, "new plan")
	const found = "As found · locked"
	check("with a new one", []string{found, "Plan 2"}, "Plan 2")
	if !strings.Contains(a.noticed(), "“As found” is locked now") {
		t.Errorf("the window says %q", a.noticed())
	}
	a.bar.plan.SetSelected(found)
	check("picked", []string{found, "Plan 2"}, found)
	run(t, a, "next plan")
	check("by key", []string{found, "Plan 2"}, "Plan 2")

	run(t, a, "rename plan")
	for _, entry := range all[*line](asked(t, a)) {
		entry.SetText("  Best  ")
	}
	answer(t, a, "Rename")
	check("renamed", []string{found, "Best"}, "Best")
	run(t, a, "rename plan")
	for _, entry := range all[*line](asked(t, a)) {
		entry.SetText(" ")
	}
	answer(t, a, "Rename")
	check("with an empty name", []string{found, "Best"}, "Best")

	run(t, a, "undo")
	check("undone", []string{found, "Plan 2"}, "Plan 2")
	run(t, a, "remove plan")
	check("removed", []string{found}, found)
	run(t, a, "undo")
	run(t, a, "undo")
	check("all undone", []string{"As found"}, "As found")
}

// To unlock asks first.
func TestUnlockAsks(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	run(t, a, "duplicate plan")
	run(t, a, "previous plan")
	locked := func() bool { plan, _ := a.editor.Document().Plan(diagram.FirstPlan); return plan.Locked }
	run(t, a, "unlock plan")
	says(t, a, "records what was found")
	answer(t, a, "Leave locked")
	if !locked() {
		t.Error("it is unlocked although that was refused")
	}
	run(t, a, "unlock plan")
	answer(t, a, "Unlock")
	if locked() || a.editor.UndoLabel() != "unlock plan As found" {
		t.Errorf("locked: %t, and undo takes back %q", locked(), a.editor.UndoLabel())
	}
	run(t, a, "lock plan")
	if !locked() {
		t.Error("it is not locked again")
	}
}

// A change of a locked plan is refused with what to do, by command and in the form.
func TestLockedPlanSaysWhatToDo(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	id, err := a.editor.AttachTo("panel-1")
	if err != nil {
		t.Fatal(err)
	}
	run(t, a, "new plan")
	run(t, a, "previous plan")
	a.editor.Select(id)
	a.refresh()
	run(t, a, "delete")
	says(t, a, "unlock it (Plan, Unlock plan)")
	if _, ok := a.editor.Document().Protector(id); !ok {
		t.Error("the protector is gone")
	}
}

// The marks of differences are explained on the legend while they are shown, and the
// status line counts them.
func TestDifferencesAreToldInTheWindow(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	run(t, a, "new plan")
	if _, err := a.editor.AttachTo("panel-1"); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	before := len(a.legend)
	run(t, a, "differences")
	if want := "Protectors of Plan 2 against As found: 1 added, 0 removed, 0 changed"; a.noticed() != want {
		t.Errorf("the window says %q, want %q", a.noticed(), want)
	}
	if got := len(a.legend); got != before+3 || a.legend[before].Text != "Not in As found" {
		t.Errorf("the legend has %d entries, want %d", got, before+3)
	}
	if got := wordsOf(a.details.Object()); !strings.Contains(got, "Against As found") || !strings.Contains(got, "not in As found") {
		t.Errorf("the details of the new protector say %q", got)
	}
	run(t, a, "other plan")
	if want := "Protectors of As found against Plan 2: 0 added, 1 removed, 0 changed"; a.noticed() != want {
		t.Errorf("the window says %q, want %q", a.noticed(), want)
	}
	run(t, a, "differences")
	if got := len(a.legend); got != before {
		t.Errorf("afterwards the legend has %d entries, want %d", got, before)
	}
}

// Another plan is chosen for the comparison, by its name.
func TestCompareWithAChosenPlan(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	run(t, a, "new plan")
	run(t, a, "new plan")
	if got := a.editor.Other(); got != diagram.FirstPlan {
		t.Errorf("at first the other plan is %s, want the first", got)
	}
	run(t, a, "compare with")
	answer(t, a, "Plan 2")
	if got := a.editor.Against(); got != "plan-2" {
		t.Errorf("differences are marked from %q, want the one that was chosen", got)
	}
}

func TestDuplicatePlanKeepsProtectors(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	if _, err := a.editor.AttachTo("panel-1"); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	run(t, a, "duplicate plan")
	count := 0
	for range a.editor.Document().ProtectorsOf(a.editor.Plan()) {
		count++
	}
	if count != 1 {
		t.Errorf("got %d protectors, want 1", count)
	}
}

func TestPlanMenu(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.planMenu(a.bar.plan)
	menus := all[*widget.PopUpMenu](a.window.Canvas().Overlays().Top())
	if len(menus) != 1 {
		t.Fatalf("got %d menus, want one", len(menus))
	}
	const want = "New plan\nDuplicate plan\nRename plan …\nMove plan earlier\nMove plan later\nLock plan\nUnlock plan …\nRemove plan\n" +
		"Mark differences, or stop\nMark differences from …\nShow the other plan, or come back"
	if words := wordsOf(menus[0]); words != want {
		t.Errorf("got %q", words)
	}
}

func TestPlanNames(t *testing.T) {
	for _, row := range []struct {
		name  string
		plans []diagram.Plan
		want  []string
	}{
		{"named", []diagram.Plan{{ID: "plan-1", Name: "A"}, {ID: "plan-2", Name: "B"}}, []string{"A", "B"}},
		{"alike", []diagram.Plan{{ID: "plan-1", Name: "A"}, {ID: "plan-2", Name: "A"}}, []string{"A", "A (plan-2)"}},
		{"locked", []diagram.Plan{{ID: "plan-1", Name: "A", Locked: true}, {ID: "plan-2", Name: "A"}}, []string{"A · locked", "A (plan-2)"}},
		{"nameless", []diagram.Plan{{ID: "plan-1"}}, []string{"plan-1"}},
	} {
		if got := planNames(row.plans); !slices.Equal(got, row.want) {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
