package edit_test

import (
	"testing"

	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

func TestSelect(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want string
	}{
		{"click on a part", func(d *edittest.Driver) { d.Click(0, -60) }, "supply-1"},
		{"click on a feeder", func(d *edittest.Driver) { d.Click(0, 40) }, "feeder-2"},
		{"click on a protector", func(d *edittest.Driver) { d.Click(20, 7) }, "protector-1"},
		{"click on another", func(d *edittest.Driver) { d.Click(0, -60).Click(5, 60) }, "panel-1"},
		{"click on nothing", func(d *edittest.Driver) { d.Click(0, -60).Click(-80, 30) }, ""},
		{"shift-click on nothing", func(d *edittest.Driver) { d.Click(0, -60).ShiftClick(-80, 30) }, "supply-1"},
		{"shift-click adds", func(d *edittest.Driver) { d.Click(0, -60).ShiftClick(5, 60) }, "panel-1 supply-1"},
		{"shift-click takes away", func(d *edittest.Driver) { d.Click(0, -60).ShiftClick(5, 60).ShiftClick(0, -60) }, "panel-1"},
		{"click on one of several", func(d *edittest.Driver) { d.Click(0, -60).ShiftClick(5, 60).Click(5, 60) }, "panel-1"},
		{"right click selects", func(d *edittest.Driver) { d.RightClick(0, -60) }, "supply-1"},
		{"right click keeps several", func(d *edittest.Driver) { d.Click(0, -60).ShiftClick(5, 60).RightClick(5, 60) }, "panel-1 supply-1"},
		{"right click on nothing", func(d *edittest.Driver) { d.Click(0, -60).RightClick(-80, 30) }, ""},
		{"select all", func(d *edittest.Driver) { d.Key("Ctrl+A") },
			"feeder-1 feeder-2 load-1 panel-1 protector-1 supply-1 switchboard-1"},
		{"select all boards", func(d *edittest.Driver) { d.Key("Ctrl+Alt+B") }, "panel-1 switchboard-1"},
		{"select all protectors", func(d *edittest.Driver) { d.Key("Ctrl+Alt+P") }, "protector-1"},
		{"select none", func(d *edittest.Driver) { d.Key("Ctrl+A", "Ctrl+Shift+A") }, ""},
		{"escape", func(d *edittest.Driver) { d.Click(0, -60).Key(edit.KeyEscape) }, ""},
		{"a tremble is a click", func(d *edittest.Driver) { d.Press(0, -60).DragTo(0.3, -60).Release() }, "supply-1"},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			if got := selected(d); got != row.want {
				t.Errorf("got %q, want %q", got, row.want)
			}
			if d.CanUndo() {
				t.Errorf("selecting left an entry %q", d.UndoLabel())
			}
		})
	}
}

func TestSelectByBox(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want string
	}{
		{"what lies in it", func(d *edittest.Driver) { d.Drag(-50, 40, 50, 80) }, "panel-1"},
		{"drawn the other way", func(d *edittest.Driver) { d.Drag(50, 80, -50, 40) }, "panel-1"},
		{"not what sticks out", func(d *edittest.Driver) { d.Drag(-50, 40, 10, 80) }, ""},
		{"replaces", func(d *edittest.Driver) { d.Click(0, -60).Drag(-50, 40, 50, 80) }, "panel-1"},
		{"shift adds", func(d *edittest.Driver) {
			d.Click(0, -60).Hold(edit.Shift).Drag(-50, 40, 50, 80)
		}, "panel-1 supply-1"},
		{"escape puts back", func(d *edittest.Driver) {
			d.Click(0, -60).Press(-50, 40).DragTo(50, 80).Key(edit.KeyEscape)
		}, "supply-1"},
		{"nothing after escape", func(d *edittest.Driver) {
			d.Press(-50, 40).DragTo(50, 80).Key(edit.KeyEscape).DragTo(90, 90).Release()
		}, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			if got := selected(d); got != row.want {
				t.Errorf("got %q, want %q", got, row.want)
			}
		})
	}
}

func TestDetails(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want int
	}{
		{"double-click on a part", func(d *edittest.Driver) { d.DoubleClick(0, -60) }, 1},
		{"double-click on nothing", func(d *edittest.Driver) { d.DoubleClick(-80, 30) }, 0},
		{"enter", func(d *edittest.Driver) { d.Click(0, -60).Key(edit.KeyEnter) }, 1},
		{"enter without a selection", func(d *edittest.Driver) { d.Key(edit.KeyEnter) }, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := 0
			d := edittest.New(t, house(t), edit.Options{FocusDetails: func() { got++ }})
			row.do(d)
			if got != row.want {
				t.Errorf("details were asked for %d times, want %d", got, row.want)
			}
		})
	}
}
