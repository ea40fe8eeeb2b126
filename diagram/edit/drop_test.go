package edit_test

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

// A gesture that changes nothing in the end leaves what can be redone.
func TestNothingDoneKeepsTheRedo(t *testing.T) {
	d := drive(t)
	must(t, d.Change("rename", rename("panel-1", "Workshop")))
	d.Undo()
	d.Press(80, 60).DragTo(120, 60).DragTo(80, 60).Release()
	if d.RedoLabel() != "rename" {
		t.Errorf("to be redone: %q, want what was undone", d.RedoLabel())
	}
	d.Press(80, 60).DragTo(120, 60).Release()
	if d.CanRedo() {
		t.Error("what was undone can be redone after something else")
	}
}

// Another plan, and what makes records, drop the gesture first.
func TestGestureIsDroppedFirst(t *testing.T) {
	for name, do := range map[string]func(e *edit.Editor){
		"plan": func(e *edit.Editor) { e.SetPlan("plan-2") },
		"place": func(e *edit.Editor) {
			if _, err := e.DropPart(diagram.Load, geom.Pt(-80, 120)); err != nil {
				t.Error(err)
			}
		},
		"new plan": func(e *edit.Editor) {
			if _, err := e.AddPlan("", ""); err != nil {
				t.Error(err)
			}
		},
		"tool": func(e *edit.Editor) { e.ArmFeeder() },
	} {
		d := drive(t)
		_, err := d.AddPlan("", "")
		must(t, err)
		d.SetPlan(diagram.FirstPlan)
		d.Press(80, 60).DragTo(120, 60)
		do(d.Editor)
		d.Release()
		if load, _ := d.Document().Part("load-1"); load.At.X != 80 {
			t.Errorf("%s: the load was left at %g", name, load.At.X)
		}
	}
}

// A part that moves does not line up with where it was itself.
func TestMovingLinesUpWithOthersOnly(t *testing.T) {
	d := drive(t)
	set(t, d, "load-1", func(p *diagram.Part) { p.At = geom.Pt(81.5, 60) })
	d.Drag(81.5, 60, 81.5, 120)
	if got, _ := d.Document().Part("load-1"); got.At != geom.Pt(80, 120) {
		t.Errorf("got %v, want the point of the grid at 80,120", got.At)
	}
}
