package assess_test

import (
	"context"
	"math"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/spice"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// ungrounded is a panel on an ungrounded delta, 10 m behind its supply, with a
// surge that arrives at the panel itself.
func ungrounded(t *testing.T) *diagram.Document {
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: delta480})
		tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel})
		run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "panel"}, 10)
	})
}

// inSteel returns the sheet with every feeder in a steel conduit.
func inSteel(t *testing.T, doc *diagram.Document) *diagram.Document {
	out := doc.Snapshot()
	diagramtest.Edit(t, out, func(tx *diagram.Tx) {
		for f := range tx.Document().Feeders() {
			f.Raceway = diagram.SteelConduit
			tx.SetFeeder(f)
		}
	})
	return out
}

// On an ungrounded delta nothing leads a surge to earth that comes in on all lines:
// the generator stands open, and every line of the panel and of the supply rises to
// its open-circuit voltage, while next to nothing stands between the lines, of which one lies
// farther from the earth wire and charges less. On one line
// alone the windings of the supply, which join the lines at mains frequency, hold
// the two others near it, so that they rise as well.
func TestSurgeAtAPanelOfAnUngroundedDelta(t *testing.T) {
	const open = 6000.0
	// 10 m of feeder and the stray of the supply swing a little round the crest
	const within = 0.03
	doc := ungrounded(t)
	var engine assess.Engine
	r, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, arriving("panel", diagram.LinesToEarth))
	if err != nil {
		t.Fatal(err)
	}
	toEarth, _ := r.Surges[0].Worst("panel", diagram.LineEarth)
	between, _ := r.Surges[0].Worst("panel", diagram.LineLine)
	if math.Abs(toEarth.Volts-open) > within*open || between.Volts > within*open {
		t.Errorf("on all lines: got %.0f V to earth and %.1f V between lines, want %g V and next to none", toEarth.Volts, between.Volts, open)
	}
	if got := peak(t, inSteel(t, doc), arriving("panel", diagram.LinesToEarth), "panel", diagram.LineLine); got > 1 {
		t.Errorf("in steel, where the lines are alike: got %.1f V between them, want none", got)
	}
	if _, ok := r.Surges[0].Worst("panel", diagram.LineNeutral); ok {
		t.Error("a delta has a neutral")
	}
	// The combination wave of 6 kV and 3 kA delivers 1.2/50 µs into what is open: its
	// crest comes within 1.2 to 3 µs (IEC 60060-1 front and virtual origin).
	if toEarth.At < 1.2e-6 || toEarth.At > 3.5e-6 {
		t.Errorf("the crest comes %.2g s after the surge begins", toEarth.At)
	}
	one := peak(t, doc, arriving("panel", diagram.LineToEarth), "panel", diagram.LineEarth)
	if one < 0.97*open {
		t.Errorf("on one line: got %.0f V to earth, want at least about %g V", one, open)
	}
}

// The same sheet in the general simulator, on every path.
func TestUngroundedDeltaAgainstSimulator(t *testing.T) {
	if _, ok := spice.Find(); !ok {
		t.Skip("ngspice is not installed; go run ./cmd/dev test installs it")
	}
	var surges []diagram.Surge
	for _, path := range []diagram.Path{diagram.LinesToEarth, diagram.LineToEarth, diagram.LineToLine} {
		surges = append(surges, arriving("panel", path))
	}
	crosscheck(t, ungrounded(t), diagram.FirstPlan, soon, surges...)
	held := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: delta480})
		tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel})
		run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "panel"}, 10)
		attach(tx, "panel", delta480, 6*inch)
	})
	crosscheck(t, held, diagram.FirstPlan, soon, surges[0])
	// and the protector holds each line to earth: VPR 2000 V and its leads
	if got := peak(t, held, surges[0], "panel", diagram.LineEarth); got > 2500 || got < 1000 {
		t.Errorf("with a protector of %g V: got %.0f V", analysis.TypicalProtector(delta480).Modes[diagram.LineEarth].Level, got)
	}
}
