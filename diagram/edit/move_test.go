package edit_test

import (
	"testing"

	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

func TestMove(t *testing.T) {
	try(t, []gesture{
		{"an unselected part, onto the grid",
			func(d *edittest.Driver) { d.Drag(80, 60, 91.3, 82.2) },
			"-load-1 at 80,60\n+load-1 at 90,80", "move Pump", "load-1"},
		{"several",
			func(d *edittest.Driver) { d.Click(80, 60).ShiftClick(5, 60).Drag(80, 60, 80, 84) },
			"-load-1 at 80,60\n-panel-1 at 0,60\n+load-1 at 80,85\n+panel-1 at 0,85", "move 2 parts", "load-1 panel-1"},
		{"shift takes another along",
			func(d *edittest.Driver) { d.Click(80, 60).Hold(edit.Shift).Drag(5, 60, 5, 84) },
			"-load-1 at 80,60\n-panel-1 at 0,60\n+load-1 at 80,85\n+panel-1 at 0,85", "move 2 parts", "load-1 panel-1"},
		{"alt suspends snapping",
			func(d *edittest.Driver) { d.Hold(edit.Alt).Drag(80, 60, 92.5, 63.5) },
			"-load-1 at 80,60\n+load-1 at 92.5,63.5", "move Pump", "load-1"},
		{"there and back is nothing",
			func(d *edittest.Driver) { d.Press(80, 60).DragTo(120, 90).DragTo(80, 60).Release() },
			"", "", "load-1"},
		{"escape",
			func(d *edittest.Driver) {
				d.Press(80, 60).DragTo(120, 90).Key(edit.KeyEscape).DragTo(130, 90).Release()
			},
			"", "", "load-1"},
		{"the window goes away",
			func(d *edittest.Driver) { d.Press(80, 60).DragTo(120, 90).Cancel().Release() },
			"", "", "load-1"},
		{"undo drops the gesture",
			func(d *edittest.Driver) { d.Press(80, 60).DragTo(120, 90).Key("Ctrl+Z").Release() },
			"", "", "load-1"},
		{"off the sheet is refused, and the last place holds",
			func(d *edittest.Driver) { d.Press(80, 60).DragTo(120, 90).DragTo(1e9, 90).Release() },
			"-load-1 at 80,60\n+load-1 at 120,90", "move Pump", "load-1"},
	})
}

func TestNudge(t *testing.T) {
	try(t, []gesture{
		{"by the grid, in one entry",
			func(d *edittest.Driver) { d.Click(80, 60).Key(edit.KeyRight, edit.KeyRight, edit.KeyUp) },
			"-load-1 at 80,60\n+load-1 at 90,55", "move Pump", "load-1"},
		{"finely",
			func(d *edittest.Driver) { d.Click(80, 60).Key("Shift+Left", "Shift+Down") },
			"-load-1 at 80,60\n+load-1 at 79,61", "move Pump", "load-1"},
		{"a protector along its bus",
			func(d *edittest.Driver) { d.Select("protector-1"); d.Key(edit.KeyLeft, "Shift+Left") },
			"-protector-1 in plan-1 on switchboard-1 at 20\n+protector-1 in plan-1 on switchboard-1 at 14",
			"move protector on Main", "protector-1"},
		{"a protector no further than the end",
			func(d *edittest.Driver) {
				d.Select("protector-1")
				d.Key(edit.KeyRight, edit.KeyRight, edit.KeyRight, edit.KeyRight)
			},
			"-protector-1 in plan-1 on switchboard-1 at 20\n+protector-1 in plan-1 on switchboard-1 at 30",
			"move protector on Main", "protector-1"},
		{"nothing", func(d *edittest.Driver) { d.Key(edit.KeyLeft) }, "", "", ""},
		{"a feeder has no place", func(d *edittest.Driver) { d.Select("feeder-1"); d.Key(edit.KeyLeft) }, "", "", "feeder-1"},
	})
}

func TestNudgesOfTwoSelectionsAreTwoEntries(t *testing.T) {
	d := drive(t)
	d.Click(80, 60).Key(edit.KeyRight).Click(0, -60).Key(edit.KeyRight)
	d.Do("undo").Do("undo")
	if d.CanUndo() {
		t.Errorf("a third entry %q", d.UndoLabel())
	}
}

func TestResize(t *testing.T) {
	try(t, []gesture{
		{"the right end, protectors staying",
			func(d *edittest.Driver) { d.Drag(30, 0, 51, 3) },
			"-switchboard-1 at 0,0\n-protector-1 in plan-1 on switchboard-1 at 20\n" +
				"+switchboard-1 at 10,0 span 80\n+protector-1 in plan-1 on switchboard-1 at 10",
			"resize Main", "switchboard-1"},
		{"the left end",
			func(d *edittest.Driver) { d.Drag(-30, 0, -49, 3) },
			"-switchboard-1 at 0,0\n-protector-1 in plan-1 on switchboard-1 at 20\n" +
				"+switchboard-1 at -10,0 span 80\n+protector-1 in plan-1 on switchboard-1 at 30",
			"resize Main", "switchboard-1"},
		{"no shorter than the least",
			func(d *edittest.Driver) { d.Drag(20, 60, -60, 60) },
			"-panel-1 at 0,60\n+panel-1 at -15,60 span 10", "resize Lab", "panel-1"},
		{"past a protector takes it along",
			func(d *edittest.Driver) { d.Drag(30, 0, -10, 0) },
			"-switchboard-1 at 0,0\n-protector-1 in plan-1 on switchboard-1 at 20\n" +
				"+switchboard-1 at -20,0 span 20\n+protector-1 in plan-1 on switchboard-1 at 10",
			"resize Main", "switchboard-1"},
		{"alt suspends snapping",
			func(d *edittest.Driver) { d.Hold(edit.Alt).Drag(20, 60, 23, 60) },
			"-panel-1 at 0,60\n+panel-1 at 1.5,60 span 43", "resize Lab", "panel-1"},
		{"escape",
			func(d *edittest.Driver) { d.Press(30, 0).DragTo(60, 0).Key(edit.KeyEscape).Release() },
			"", "", "switchboard-1"},
	})
}

func TestResizeUprightBar(t *testing.T) {
	d := drive(t)
	d.Click(5, 60).Key("R")
	before := places(d.Document())
	d.Drag(0, 80, 3, 101)
	const want = "-panel-1 at 0,60 turn 1\n+panel-1 at 0,70 turn 1 span 60"
	if got := changed(before, places(d.Document())); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	if d.Hover(0, 100); d.Cursor() != edit.ResizeV {
		t.Errorf("cursor at the end: got %d, want %d", d.Cursor(), edit.ResizeV)
	}
}

func TestSlide(t *testing.T) {
	const before = "-protector-1 in plan-1 on switchboard-1 at 20\n"
	try(t, []gesture{
		{"along the bus, onto the grid",
			func(d *edittest.Driver) { d.Drag(20, 7, 9, 8) },
			before + "+protector-1 in plan-1 on switchboard-1 at 10", "move protector on Main", "protector-1"},
		{"freely",
			func(d *edittest.Driver) { d.Hold(edit.Alt).Drag(20, 7, 8.5, 7) },
			before + "+protector-1 in plan-1 on switchboard-1 at 8.5", "move protector on Main", "protector-1"},
		{"to another bus",
			func(d *edittest.Driver) { d.Drag(20, 7, 10, 67) },
			before + "+protector-1 in plan-1 on panel-1 at 10", "move protector on Lab", "protector-1"},
		{"to a load",
			func(d *edittest.Driver) { d.Drag(20, 7, 80, 60) },
			before + "+protector-1 in plan-1 on load-1 at 0", "move protector on Pump", "protector-1"},
		{"to nothing puts back",
			func(d *edittest.Driver) { d.Drag(20, 7, -90, 30) }, "", "", "protector-1"},
		{"not to a supply",
			func(d *edittest.Driver) { d.Drag(20, 7, 0, -60) }, "", "", "protector-1"},
		{"escape",
			func(d *edittest.Driver) { d.Press(20, 7).DragTo(10, 67).Key(edit.KeyEscape).Release() }, "", "", "protector-1"},
	})
}
