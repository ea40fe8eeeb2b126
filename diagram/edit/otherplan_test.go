package edit_test

import (
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/symbol"
)

func isLocked(d *edittest.Driver, id diagram.ID) bool {
	plan, _ := d.Document().Plan(id)
	return plan.Locked
}

// The first plan is locked in the step that makes the second one, and no later one
// is.
func TestFirstPlanLocksItself(t *testing.T) {
	for _, command := range []string{"new plan", "duplicate plan"} {
		d := drive(t)
		d.Do(command)
		if !isLocked(d, diagram.FirstPlan) || isLocked(d, d.Plan()) {
			t.Errorf("%s: the first is locked: %t, the new one: %t", command, isLocked(d, diagram.FirstPlan), isLocked(d, d.Plan()))
		}
		d.Do("undo")
		if isLocked(d, diagram.FirstPlan) || d.CanUndo() {
			t.Errorf("%s: after undo it is locked: %t, and there is more to undo: %t", command, isLocked(d, diagram.FirstPlan), d.CanUndo())
		}
		d.Do("redo")
		must(t, d.LockPlan(diagram.FirstPlan, false))
		d.Do(command)
		if isLocked(d, diagram.FirstPlan) {
			t.Errorf("%s: a third plan locks the first, which was unlocked", command)
		}
	}
}

// Whatever would change the protectors of a locked plan is refused with what to do,
// and changes nothing.
func TestLockedPlanRefuses(t *testing.T) {
	for name, do := range map[string]func(d *edittest.Driver){
		"delete a protector":       func(d *edittest.Driver) { d.Select("protector-1"); d.Key(edit.KeyDelete) },
		"delete its board":         func(d *edittest.Driver) { d.Select("switchboard-1"); d.Key(edit.KeyDelete) },
		"attach another":           func(d *edittest.Driver) { d.Select("panel-1"); d.Key("P") },
		"duplicate it":             func(d *edittest.Driver) { d.Select("protector-1"); d.Key("Ctrl+D") },
		"cut it":                   func(d *edittest.Driver) { d.Select("protector-1"); d.Key("Ctrl+X") },
		"paste it":                 func(d *edittest.Driver) { d.Select("protector-1"); d.Key("Ctrl+C", "Ctrl+V") },
		"remove the plan":          func(d *edittest.Driver) { d.Key("Ctrl+Shift+" + edit.KeyDelete) },
		"let another stand before": func(d *edittest.Driver) { d.Key("Ctrl+Alt+" + edit.KeyPageDown) },
		"let another move ahead":   func(d *edittest.Driver) { d.SetPlan("plan-2"); d.Key("Ctrl+Alt+" + edit.KeyPageUp) },
		"slide it to another board": func(d *edittest.Driver) {
			at, _ := d.Scene().Box("protector-1")
			c := at.Center()
			d.Drag(c.X, c.Y, 5, 60)
		},
	} {
		d := drive(t)
		d.Do("new plan").Do("previous plan")
		before := edittest.Text(t, d.Document())
		do(d)
		if got := d.Status(); !strings.Contains(got, "locked") || !strings.Contains(got, "unlock it (Plan, Unlock plan)") {
			t.Errorf("%s: the status is %q", name, got)
		}
		d.SetPlan(diagram.FirstPlan)
		if after := edittest.Text(t, d.Document()); after != before {
			t.Errorf("%s: the sheet changed to\n%s", name, after)
		}
		must(t, d.LockPlan(diagram.FirstPlan, false))
		do(d)
		if strings.Contains(d.Status(), "locked") {
			t.Errorf("%s: after unlocking the status is %q", name, d.Status())
		}
	}
}

// The building is everybody's, and so is where along its bus a protector is drawn.
func TestLockedPlanLeavesTheBuildingFree(t *testing.T) {
	for label, do := range map[string]func(d *edittest.Driver){
		"move Main":                func(d *edittest.Driver) { d.Select("switchboard-1"); d.Key(edit.KeyRight) },
		"resize Main":              func(d *edittest.Driver) { end := barEnd(d, "switchboard-1"); d.Drag(end, 0, end+20, 0) },
		"move protector on Main":   func(d *edittest.Driver) { d.Select("protector-1"); d.Key(edit.KeyRight) },
		"delete Lab":               func(d *edittest.Driver) { d.Select("panel-1"); d.Key(edit.KeyDelete) },
		"attach protector to Main": func(d *edittest.Driver) { d.SetPlan("plan-2"); d.Select("switchboard-1"); d.Key("P") },
		"rename plan":              func(d *edittest.Driver) { must(t, d.RenamePlan(diagram.FirstPlan, "Today")) },
	} {
		d := drive(t)
		d.Do("new plan").Do("previous plan")
		do(d)
		if d.UndoLabel() != label || strings.Contains(d.Status(), "locked") {
			t.Errorf("%s: done was %s; the status is %q", label, d.UndoLabel(), d.Status())
		}
	}
}

// barEnd is how far to the right the bus bar of a board reaches.
func barEnd(d *edittest.Driver, id diagram.ID) float64 {
	part, _ := d.Document().Part(id)
	return part.At.X + symbol.Span(part)/2
}

// A look at another plan is no step of the history and leaves nothing unsaved; it
// keeps the view, and of the selection what is there too.
func TestSwitchingKeepsWhatIsLookedAt(t *testing.T) {
	d := drive(t)
	d.Do("duplicate plan").Do("zoom in")
	d.MarkSaved()
	d.Select("panel-1", "protector-2")
	view, label := d.View(), d.UndoLabel()
	d.Do("previous plan")
	if got := selected(d); got != "panel-1 protector-1" || d.View() != view {
		t.Errorf("selected %q, want the panel and the protector that the copy was made of; the view was kept: %t", got, d.View() == view)
	}
	if !d.IsSaved() || d.UndoLabel() != label {
		t.Errorf("saved: %t, undo takes back %q, want %q", d.IsSaved(), d.UndoLabel(), label)
	}
	if again := edit.New(d.Document().Snapshot(), edit.Options{}); again.Plan() != diagram.FirstPlan {
		t.Errorf("it is opened on %s again, want the plan looked at", again.Plan())
	}
	d.Do("next plan")
	if again := edit.New(d.Document().Snapshot(), edit.Options{}); again.Plan() != "plan-2" {
		t.Errorf("it is opened on %s again, want the plan looked at", again.Plan())
	}
}

// While the key is held the other plan is seen; after it all is as it was, also the
// plan that is noted in the file.
func TestGlance(t *testing.T) {
	d := drive(t)
	d.Do("duplicate plan")
	d.Select("protector-2")
	release := func() { d.Handle(edit.Event{Kind: edit.KeyRelease, Key: edit.KeyGlance}) }
	look := func() string { return planList(d) + ", selected " + selected(d) }
	const before = "As found*, [Plan 2*], selected protector-2"
	if look() != before {
		t.Fatalf("got %s, want %s", look(), before)
	}
	d.Key(edit.KeyGlance, edit.KeyGlance) // it repeats while it is held
	if got, want := look(), "[As found*], Plan 2*, selected protector-1"; got != want {
		t.Errorf("held: got %s, want %s", got, want)
	}
	if got, want := d.Status(), "While B is held: As found"; got != want {
		t.Errorf("held: the status is %q, want %q", got, want)
	}
	if shown := d.Document().Shown(); shown != "plan-2" {
		t.Errorf("held: a save would note %s, want the plan that is worked on", shown)
	}
	release()
	if look() != before {
		t.Errorf("let go: got %s, want %s", look(), before)
	}
	release()
	must(t, d.LockPlan(diagram.FirstPlan, false))
	d.Key(edit.KeyGlance)
	must(t, d.Change("note", func(tx *diagram.Tx) error { tx.SetPart(diagram.Part{ID: "note-1", Kind: diagram.Note}); return nil }))
	release()
	if got := planList(d); got != "As found*, [Plan 2*]" {
		t.Errorf("after a change meanwhile: got %s", got)
	}
	d.Key(edit.KeyGlance).SetPlan(diagram.FirstPlan)
	release()
	if got := planList(d); got != "[As found*], Plan 2*" {
		t.Errorf("after another plan was chosen meanwhile: got %s", got)
	}
}

// The command does the same for who cannot hold a key: it leads there and back.
func TestShowOtherLeadsBack(t *testing.T) {
	d := drive(t)
	d.Do("new plan").Do("new plan")
	d.CompareWith(diagram.FirstPlan)
	var seen []string
	for range 3 {
		d.Do("other plan")
		seen = append(seen, string(d.Plan()))
	}
	if want := []string{"plan-1", "plan-3", "plan-1"}; !slices.Equal(seen, want) {
		t.Errorf("got %v, want %v", seen, want)
	}
}

// Without a choice a plan is compared with the first, that one with the second, and a
// record with the plan of which it is; a choice holds while it is another plan.
func TestOther(t *testing.T) {
	d := drive(t)
	if got := d.Other(); got != "" {
		t.Errorf("of a single plan: %s", got)
	}
	d.Do("new plan").Do("new plan")
	for plan, want := range map[diagram.ID]diagram.ID{"plan-1": "plan-2", "plan-2": "plan-1", "plan-3": "plan-1"} {
		if d.SetPlan(plan); d.Other() != want {
			t.Errorf("of %s: got %s, want %s", plan, d.Other(), want)
		}
	}
	d.CompareWith("plan-3")
	for plan, want := range map[diagram.ID]diagram.ID{"plan-1": "plan-3", "plan-2": "plan-3", "plan-3": "plan-1"} {
		if d.SetPlan(plan); d.Other() != want {
			t.Errorf("with a choice, of %s: got %s, want %s", plan, d.Other(), want)
		}
	}
	d.SetPlan("plan-3")
	d.CompareWith("plan-9")
	if d.Other() != "plan-1" {
		t.Errorf("of a plan that does not exist: %s", d.Other())
	}
}

// Differences follow the protectors, are found anew only for those, and a selected
// protector says its own.
func TestDifferencesFollow(t *testing.T) {
	d := drive(t)
	d.Do("duplicate plan")
	if d.Differences() != nil {
		t.Error("there are differences although none are marked")
	}
	d.Do("differences")
	if got, want := d.SayDifferences(), "Plan 2 has the same protectors as As found"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	must(t, d.Change("leads", func(tx *diagram.Tx) error {
		p, _ := tx.Protector("protector-2")
		p.Leads.Earth.Length = 0.254
		tx.SetProtector(p)
		return nil
	}))
	_, err := d.AttachTo("panel-1")
	must(t, err)
	if got, want := d.SayDifferences(), "Protectors of Plan 2 against As found: 1 added, 0 removed, 1 changed"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	found := d.Differences()
	d.Select("panel-1")
	d.Key(edit.KeyRight)
	if again := d.Differences(); &again[0] != &found[0] {
		t.Error("they are found anew where only the building was moved")
	}
	d.Select("protector-2")
	if got := d.Status(); !strings.Contains(got, "ground lead 0 in → 10 in") {
		t.Errorf("the status of a changed protector is %q", got)
	}
	d.Select("protector-3")
	if got := d.Status(); !strings.Contains(got, "not in As found") {
		t.Errorf("the status of an added protector is %q", got)
	}
	d.Do("undo").Do("undo").Do("differences")
	if d.Differences() != nil || d.Against() != "" {
		t.Error("differences are marked still")
	}
}

// The record of a plan is begun once, shown again after that, undone as one step, and has
// no record itself.
func TestRecordOfThePlan(t *testing.T) {
	d := drive(t)
	of := d.Plan()
	d.Do("record")
	record, ok := d.Document().RecordOf(of)
	if !ok || d.Plan() != record.ID {
		t.Fatalf("%s is shown, the record is %+v", d.Plan(), record)
	}
	if err := d.BeginRecord(); err == nil || !strings.Contains(err.Error(), "is a record") {
		t.Errorf("a record of a record: %v", err)
	}
	d.SetPlan(of)
	d.Do("record")
	if len(d.Document().Plans()) != 2 || d.Plan() != record.ID {
		t.Errorf("%d plans, %s is shown", len(d.Document().Plans()), d.Plan())
	}
	d.Do("undo")
	if _, ok := d.Document().RecordOf(of); ok || d.Plan() != of {
		t.Errorf("undo leaves the record, and shows %s", d.Plan())
	}
}
