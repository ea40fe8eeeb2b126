package edit_test

import (
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

// planList writes the plans with the number of their protectors, the one that
// is shown in brackets.
func planList(d *edittest.Driver) string {
	var out []string
	for _, plan := range d.Document().Plans() {
		word := plan.Name
		for range d.Document().ProtectorsOf(plan.ID) {
			word += "*"
		}
		if plan.ID == d.Plan() {
			word = "[" + word + "]"
		}
		out = append(out, word)
	}
	return strings.Join(out, ", ")
}

func TestPlans(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want string
	}{
		{"new", func(d *edittest.Driver) { d.Do("new plan") }, "As found*, [Plan 2]"},
		{"duplicate", func(d *edittest.Driver) { d.Do("duplicate plan") }, "As found*, [Plan 2*]"},
		{"next", func(d *edittest.Driver) { d.Do("new plan").Do("next plan") }, "[As found*], Plan 2"},
		{"previous", func(d *edittest.Driver) { d.Do("new plan").Do("new plan").Do("previous plan") }, "As found*, [Plan 2], Plan 3"},
		{"rename", func(d *edittest.Driver) { must(t, d.RenamePlan(diagram.FirstPlan, "Today")) }, "[Today*]"},
		{"remove the shown one", func(d *edittest.Driver) { d.Do("duplicate plan").Do("remove plan") }, "[As found*]"},
		{"remove another", func(d *edittest.Driver) {
			d.Do("duplicate plan")
			must(t, d.LockPlan(diagram.FirstPlan, false))
			must(t, d.RemovePlan(diagram.FirstPlan))
		}, "[Plan 2*]"},
		{"remove and undo", func(d *edittest.Driver) { d.Do("duplicate plan").Do("remove plan").Do("undo") }, "As found*, [Plan 2*]"},
		{"add and undo", func(d *edittest.Driver) { d.Do("duplicate plan").Do("undo") }, "[As found*]"},
		{"add, undo and redo", func(d *edittest.Driver) { d.Do("duplicate plan").Do("undo").Do("redo") }, "As found*, [Plan 2*]"},
		{"move earlier", func(d *edittest.Driver) { d.Do("new plan").Do("new plan").Do("plan earlier") }, "As found*, [Plan 3], Plan 2"},
		{"move later", func(d *edittest.Driver) { d.Do("new plan").Do("new plan").Do("previous plan").Do("plan later") }, "As found*, Plan 3, [Plan 2]"},
		{"move earlier and undo", func(d *edittest.Driver) { d.Do("new plan").Do("new plan").Do("plan earlier").Do("undo") }, "As found*, Plan 2, [Plan 3]"},
		{"add after a removal", func(d *edittest.Driver) {
			d.Do("new plan").Do("new plan")
			must(t, d.RemovePlan("plan-2"))
			d.Do("new plan")
		}, "As found*, Plan 3, [Plan 4]"},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			if got := planList(d); got != row.want {
				t.Errorf("got %s, want %s", got, row.want)
			}
		})
	}
}

func TestPlansRefuse(t *testing.T) {
	d := drive(t)
	if err := d.RemovePlan(diagram.FirstPlan); err == nil {
		t.Error("the last plan was removed")
	}
	if err := d.RemovePlan("plan-9"); err == nil {
		t.Error("a plan that does not exist was removed")
	}
	if err := d.RenamePlan("plan-9", "x"); err == nil {
		t.Error("a plan that does not exist was renamed")
	}
	if _, err := d.AddPlan("x", "plan-9"); err == nil {
		t.Error("a plan that does not exist was copied")
	}
	if err := d.LockPlan("plan-9", true); err == nil {
		t.Error("a plan that does not exist was locked")
	}
	if d.CanUndo() {
		t.Errorf("a refusal left an entry %q", d.UndoLabel())
	}
}

func TestPlanHidesProtectorsOfOthers(t *testing.T) {
	d := drive(t)
	d.Select("protector-1", "panel-1")
	d.Do("new plan")
	if got := selected(d); got != "panel-1" {
		t.Errorf("selected: got %q, want panel-1", got)
	}
	d.Key("Ctrl+A")
	if d.IsSelected("protector-1") {
		t.Error("a protector of another plan can be selected")
	}
	d.Reveal("protector-1")
	if d.Plan() != diagram.FirstPlan || selected(d) != "protector-1" {
		t.Errorf("reveal: plan %s, selected %q", d.Plan(), selected(d))
	}
}

// What is set aside in a plan is set aside in its copy, about the copies of the
// protectors.
func TestCopyOfAPlanSetsAsideTheSame(t *testing.T) {
	e := edittest.New(t, diagram.New(), edit.Options{}).Editor
	err := e.Change("build", func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1"})
		tx.SetAside(diagram.Aside{ID: "aside-1", Plan: diagram.FirstPlan, Rule: "leads.long", About: "protector-1", Reason: "as told"})
		tx.SetAside(diagram.Aside{ID: "aside-2", Plan: diagram.FirstPlan, Rule: "cover.not held", About: "panel-1"})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	plan, err := e.AddPlan("", diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	about := map[diagram.ID]string{}
	for a := range e.Document().Asides() {
		if a.Plan == plan {
			about[a.About] = a.Rule + " " + a.Reason
		}
	}
	if len(about) != 2 || about["protector-2"] != "leads.long as told" || about["panel-1"] != "cover.not held " {
		t.Errorf("got %v", about)
	}
	if err := e.RemovePlan(plan); err != nil {
		t.Fatal(err)
	}
	if count := len(slices.Collect(e.Document().Asides())); count != 2 {
		t.Errorf("%d are left after the copy is gone, want those of the first plan", count)
	}
}
