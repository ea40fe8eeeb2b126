package assess_test

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// A protector just below a board holds it over the feeder between them. What the
// hand rule gives for that is on the safe side of what is solved, and not so far
// as to condemn what is good.
func TestJustBelowAgainstSolved(t *testing.T) {
	stands := diagram.Withstand{Kind: diagram.ByVolts, Volts: 4000}
	for _, length := range []float64{1, 3, 8} {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: wye208})
			tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel, Board: diagram.BoardData{Bonded: true}, Withstand: stands})
			tx.SetPart(diagram.Part{ID: "lower", Kind: diagram.Panel, Withstand: stands})
			run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "panel"}, 10)
			run(tx, diagram.End{Part: "panel"}, diagram.End{Part: "lower"}, length)
			attach(tx, "lower", wye208, 6*inch)
		})
		solved := peak(t, doc, arriving("supply", diagram.LineToNeutral), "panel", diagram.LineNeutral)
		hand := levelOf(t, doc, "panel", diagram.LineNeutral)
		t.Logf("%g m: solved %.0f V, by hand rule %.0f V", length, solved, hand.Volts)
		if hand.Reason != analysis.JustBelow || hand.Volts < solved || hand.Volts > 2.5*solved {
			t.Errorf("%g m: by hand rule %.0f V (%s), solved %.0f V", length, hand.Volts, hand.Reason, solved)
		}
	}
}

func levelOf(t *testing.T, doc *diagram.Document, bus diagram.ID, mode diagram.Mode) analysis.Level {
	t.Helper()
	r, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	for _, level := range r.Buses[bus].Levels {
		if level.Mode == mode {
			return level
		}
	}
	t.Fatalf("%s has no mode %s", bus, mode)
	return analysis.Level{}
}
