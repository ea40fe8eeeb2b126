package edit_test

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

func TestArrange(t *testing.T) {
	pair := func(d *edittest.Driver) { d.Select("load-1", "panel-1") }
	try(t, []gesture{
		{"turn one about itself",
			func(d *edittest.Driver) { d.Select("panel-1"); d.Key("R") },
			"-panel-1 at 0,60\n+panel-1 at 0,60 turn 1", "rotate Lab", "panel-1"},
		{"turn one back",
			func(d *edittest.Driver) { d.Select("panel-1"); d.Key("Shift+R") },
			"-panel-1 at 0,60\n+panel-1 at 0,60 turn 3", "rotate Lab", "panel-1"},
		{"turn several about their middle",
			func(d *edittest.Driver) { pair(d); d.Key("R") },
			"-load-1 at 80,60\n-panel-1 at 0,60\n+load-1 at 40,100 turn 1\n+panel-1 at 40,20 turn 1",
			"rotate 2 parts", "load-1 panel-1"},
		{"left edges",
			func(d *edittest.Driver) { pair(d); d.Key("Alt+Left") },
			"-load-1 at 80,60\n+load-1 at -16,60", "align left", "load-1 panel-1"},
		{"top edges",
			func(d *edittest.Driver) { d.Select("load-1", "supply-1"); d.Key("Alt+Up") },
			"-load-1 at 80,60\n+load-1 at 80,-60", "align top", "load-1 supply-1"},
		{"middles on an upright line",
			func(d *edittest.Driver) { d.Select("load-1", "supply-1"); d.Key("Alt+C") },
			"-load-1 at 80,60\n-supply-1 at 0,-60\n+load-1 at 40,60\n+supply-1 at 40,-60",
			"align centre", "load-1 supply-1"},
		{"middles on a level line",
			func(d *edittest.Driver) { d.Select("load-1", "supply-1"); d.Key("Alt+M") },
			"-load-1 at 80,60\n-supply-1 at 0,-60\n+load-1 at 80,0\n+supply-1 at 0,0",
			"align middle", "load-1 supply-1"},
		{"even spaces across",
			func(d *edittest.Driver) {
				d.Select("load-1", "supply-1", "panel-1")
				d.Key("Alt+H")
			},
			"-supply-1 at 0,-60\n+supply-1 at 40,-60", "distribute horizontally", "load-1 panel-1 supply-1"},
		{"even spaces down",
			func(d *edittest.Driver) {
				d.Select("switchboard-1", "supply-1", "panel-1")
				d.Key("Alt+V")
			}, "", "", "panel-1 supply-1 switchboard-1"},
		{"one part has nothing to line up with",
			func(d *edittest.Driver) { d.Select("load-1"); d.Key("Alt+Left", "Alt+H") }, "", "", "load-1"},
	})
}

func TestNotesStayUpright(t *testing.T) {
	d := drive(t)
	id, err := d.DropPart(diagram.Note, geom.Pt(-80, 30))
	must(t, err)
	d.Key("R")
	if note, _ := d.Document().Part(id); note.Turn != 0 {
		t.Errorf("the note was turned by %d quarter turns", note.Turn)
	}
}

func TestSwitch(t *testing.T) {
	for _, row := range []struct {
		name   string
		picked []diagram.ID
		label  string
		open   bool
		thrown bool
	}{
		{"a feeder", []diagram.ID{"feeder-2"}, "open feeder from Main to Lab", true, false},
		{"a transfer switch", []diagram.ID{"transfer-1"}, "throw Transfer switch 1", false, true},
		{"both", []diagram.ID{"feeder-2", "transfer-1"}, "switch", true, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			_, err := d.DropPart(diagram.TransferSwitch, geom.Pt(-80, 30))
			must(t, err)
			d.Select(row.picked...)
			for _, want := range []bool{true, false} {
				d.Key("O")
				feeder, _ := d.Document().Feeder("feeder-2")
				part, _ := d.Document().Part("transfer-1")
				if feeder.Switch.Open != (want && row.open) {
					t.Errorf("feeder open: got %t", feeder.Switch.Open)
				}
				if thrown := part.Transfer.Position == diagram.ToEmergency; thrown != (want && row.thrown) {
					t.Errorf("transfer switch thrown: got %t", thrown)
				}
				if want && d.UndoLabel() != row.label {
					t.Errorf("label: got %q, want %q", d.UndoLabel(), row.label)
				}
			}
		})
	}
	d := drive(t)
	d.Select("panel-1")
	if d.CanSwitch() {
		t.Error("a panel can be switched")
	}
}

func TestDelete(t *testing.T) {
	try(t, []gesture{
		{"a part with what hangs on it",
			func(d *edittest.Driver) { d.Click(0, 0).Key(edit.KeyDelete) },
			"-switchboard-1 at 0,0\n-feeder-1 supply-1 to switchboard-1\n-feeder-2 switchboard-1 to panel-1\n" +
				"-protector-1 in plan-1 on switchboard-1 at 20",
			"delete Main", ""},
		{"a feeder",
			func(d *edittest.Driver) { d.Click(0, 40).Key(edit.KeyBackspace) },
			"-feeder-2 switchboard-1 to panel-1", "delete feeder from Main to Lab", ""},
		{"a protector",
			func(d *edittest.Driver) { d.Click(20, 7).Key(edit.KeyDelete) },
			"-protector-1 in plan-1 on switchboard-1 at 20", "delete protector on Main", ""},
		{"all sorts",
			func(d *edittest.Driver) { d.Select("load-1", "feeder-2", "protector-1"); d.Key(edit.KeyDelete) },
			"-load-1 at 80,60\n-feeder-2 switchboard-1 to panel-1\n-protector-1 in plan-1 on switchboard-1 at 20",
			"delete 3 things", ""},
		{"nothing", func(d *edittest.Driver) { d.Key(edit.KeyDelete) }, "", "", ""},
	})
}
