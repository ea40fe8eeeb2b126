package assess_test

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The figures of the trade on a whole sheet; those of the leads alone are
// tested where protectors are calibrated. All of them: common practice, no
// source.

const (
	foot = 0.3048 // m
	inch = 0.0254 // m
)

var (
	delta480 = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	wye208   = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
)

// twoSides is a delta-wye transformer between two panels.
func twoSides(t *testing.T, hosts ...diagram.ID) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: delta480})
		tx.SetPart(diagram.Part{ID: "upper", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "trafo", Kind: diagram.Transformer, System: wye208, Transformer: diagram.TransformerData{Power: 75e3, Primary: delta480, Impedance: 4.5}})
		tx.SetPart(diagram.Part{ID: "lower", Kind: diagram.Panel, Board: diagram.BoardData{Bonded: true}})
		run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "upper"}, 10)
		run(tx, diagram.End{Part: "upper"}, diagram.End{Part: "trafo", Port: diagram.Primary}, 10)
		run(tx, diagram.End{Part: "trafo", Port: diagram.Secondary}, diagram.End{Part: "lower"}, 10)
		for _, host := range hosts {
			system := delta480
			if host == "lower" {
				system = wye208
			}
			attach(tx, host, system, 6*inch)
		}
	})
}

func run(tx *diagram.Tx, from, to diagram.End, length float64) {
	tx.SetFeeder(diagram.Feeder{ID: tx.NewFeederID(), From: from, To: to, Length: length, Area: 33.6e-6, Raceway: diagram.NonmetallicConduit})
}

func attach(tx *diagram.Tx, host diagram.ID, system diagram.System, lead float64) {
	p := analysis.TypicalProtector(system)
	p.ID, p.Plan, p.Bus = tx.NewProtectorID(), diagram.FirstPlan, host
	p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = lead, lead, lead
	tx.SetProtector(p)
}

// peak returns the highest voltage of a part in a mode.
func peak(t *testing.T, doc *diagram.Document, surge diagram.Surge, part diagram.ID, mode diagram.Mode) float64 {
	t.Helper()
	var engine assess.Engine
	r, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, surge)
	if err != nil {
		t.Fatal(err)
	}
	out, ok := r.Surges[0].Worst(part, mode)
	if !ok {
		t.Fatalf("the surge does not reach %s in %s", part, mode)
	}
	return out.Volts
}

func arriving(part diagram.ID, path diagram.Path) diagram.Surge {
	return diagram.Surge{Name: "surge", Part: part, Path: path, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000}
}

// A protector on one side of a delta-wye transformer does not hold the other:
// against a surge that is born there it changes next to nothing, and one that
// stands there itself holds it.
func TestTransformerEndsCover(t *testing.T) {
	for _, row := range []struct {
		name        string
		side, other diagram.ID
		path        diagram.Path
		mode        diagram.Mode
	}{
		{"surge on the secondary", "lower", "upper", diagram.LineToNeutral, diagram.LineNeutral},
		{"surge on the secondary, to earth", "lower", "upper", diagram.LinesToEarth, diagram.LineEarth},
		{"surge on the primary, to earth", "upper", "lower", diagram.LinesToEarth, diagram.LineEarth},
	} {
		surge := arriving(row.side, row.path)
		bare := peak(t, twoSides(t), surge, row.side, row.mode)
		across := peak(t, twoSides(t, row.other), surge, row.side, row.mode)
		here := peak(t, twoSides(t, row.side), surge, row.side, row.mode)
		if across < 0.95*bare || here > 0.5*bare {
			t.Errorf("%s: got %.0f V without a protector, %.0f V with one on the other side, %.0f V with one here", row.name, bare, across, here)
		}
		t.Logf("%s: %.0f V, %.0f V, %.0f V", row.name, bare, across, here)
	}
}

// With 30 ft of separate leads a protector hardly helps: more than half of the
// voltage stays that it would hold to a tenth with six inches.
func TestLongLeadsHardlyHelp(t *testing.T) {
	sheet := func(lead float64) *diagram.Document {
		return diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: wye208})
			tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel, Board: diagram.BoardData{Bonded: true}})
			run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "panel"}, 10)
			if lead > 0 {
				attach(tx, "panel", wye208, lead)
			}
		})
	}
	surge := arriving("", diagram.LineToNeutral)
	bare := peak(t, sheet(0), surge, "panel", diagram.LineNeutral)
	short := peak(t, sheet(6*inch), surge, "panel", diagram.LineNeutral)
	long := peak(t, sheet(30*foot), surge, "panel", diagram.LineNeutral)
	if short > 0.15*bare || long < 0.5*bare {
		t.Errorf("got %.0f V without a protector, %.0f V with 6 in, %.0f V with 30 ft", bare, short, long)
	}
	t.Logf("%.0f V, %.0f V, %.0f V", bare, short, long)
}
