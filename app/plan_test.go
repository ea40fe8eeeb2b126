package app

import (
	"slices"
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
		if plan, _ := a.editor.Document().Plan(a.editor.Plan()); plan.Name != shown || a.judgement.plan != plan.ID {
			t.Errorf("%s: the editor shows %q, the result is of %s", when, plan.Name, a.judgement.plan)
		}
	}
	check("at first", []string{"As found"}, "As found")
	run(t, a, "new plan")
	check("with a new one", []string{"As found", "Plan 2"}, "Plan 2")
	a.bar.plan.SetSelected("As found")
	check("picked", []string{"As found", "Plan 2"}, "As found")
	run(t, a, "next plan")
	check("by key", []string{"As found", "Plan 2"}, "Plan 2")

	run(t, a, "rename plan")
	for _, entry := range all[*line](asked(t, a)) {
		entry.SetText("  Best  ")
	}
	answer(t, a, "Rename")
	check("renamed", []string{"As found", "Best"}, "Best")
	run(t, a, "rename plan")
	for _, entry := range all[*line](asked(t, a)) {
		entry.SetText(" ")
	}
	answer(t, a, "Rename")
	check("with an empty name", []string{"As found", "Best"}, "Best")

	run(t, a, "undo")
	check("undone", []string{"As found", "Plan 2"}, "Plan 2")
	run(t, a, "remove plan")
	check("removed", []string{"As found"}, "As found")
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
	if len(menus) != 1 || len(menus[0].Items) != 4 {
		t.Fatalf("got %d menus, want one of four lines", len(menus))
	}
	if words := wordsOf(menus[0]); words != "New plan\nDuplicate plan\nRename plan …\nRemove plan" {
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
		{"nameless", []diagram.Plan{{ID: "plan-1"}}, []string{"plan-1"}},
	} {
		if got := planNames(row.plans); !slices.Equal(got, row.want) {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
