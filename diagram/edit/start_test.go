package edit

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

func TestStart(t *testing.T) {
	for convention, want := range map[unit.Convention]string{unit.NorthAmerican: "480Y/277 V", unit.IEC: "400/230 V TN-S"} {
		e := New(diagram.New(), Options{Scene: scene.Options{Convention: convention}})
		if err := e.Start(); err != nil {
			t.Fatal(err)
		}
		if problems := e.Document().Check(); len(problems) > 0 {
			t.Errorf("%v: %v", convention, problems)
		}
		supply, _ := e.Document().Part("supply-1")
		board, _ := e.Document().Part("switchboard-1")
		if supply.System != preset(want) || !board.Board.Service || !board.Board.Bonded == (convention == unit.NorthAmerican) {
			t.Errorf("%v: got %v and %v, want %s", convention, supply.System, board.Board, want)
		}
		if feeder, ok := e.Document().Feeder("feeder-1"); !ok || feeder.From.Part != "supply-1" || feeder.To.Part != "switchboard-1" {
			t.Errorf("%v: the feeder is %v", convention, feeder)
		}
		shown := map[unit.Convention]string{unit.NorthAmerican: "30 ft", unit.IEC: "10 m"}[convention]
		if feeder, _ := e.Document().Feeder("feeder-1"); unit.FormatEntry(feeder.Length, unit.Length, convention) != shown {
			t.Errorf("%v: the feeder is %g m long, want %s", convention, feeder.Length, shown)
		}
		e.Undo()
		if parts, feeders, _ := e.Document().Count(); parts+feeders > 0 || e.CanUndo() {
			t.Errorf("%v: one undo left %d parts and %d feeders", convention, parts, feeders)
		}
	}
}
