package assess_test

import (
	"context"
	"math"
	"testing"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
)

// The mains of all buses together is what a building carries before a surge comes:
// both ends of a feeder have the same, and the windings of each transformer stand to
// each other by their turns, whatever the system, at any moment of its turn.
func TestMainsIsThatOfOneBuilding(t *testing.T) {
	docs := filetest.Demos(t)
	for seed := range uint64(40) {
		docs = append(docs, plausibleBuilding(seed))
	}
	lines, windings := 0, 0
	for i, doc := range docs {
		for _, angle := range []float64{0, 1, 2.5} {
			made, err := extract.Network(context.Background(), extract.Input{
				Document: doc, Plan: diagram.FirstPlan, Topology: analysis.Trace(doc), Surge: analysis.SurgesOf(doc)[0], Vary: &extract.Vary{Mains: &angle},
			})
			if err != nil {
				t.Fatal(err)
			}
			n := made.Network
			at := mainsOf(n)
			for _, l := range n.Lines {
				for k := range l.A {
					from, okA := at[l.A[k]]
					to, okB := at[l.B[k]]
					if okA && okB {
						lines++
						near(t, i, l.Name, from, to)
					}
				}
			}
			for _, w := range n.Windings {
				windings++
				near(t, i, w.Name, (at[w.P.A]-at[w.P.B])/w.Ratio, at[w.S.A]-at[w.S.B])
			}
		}
	}
	if lines < 1000 || windings < 100 {
		t.Errorf("only %d conductors and %d windings were looked at", lines, windings)
	}
}

// near allows for names of voltages that are rounded: 120 V for 208 V.
func near(t *testing.T, doc int, name string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 0.01*max(math.Abs(got), math.Abs(want))+3 {
		t.Errorf("sheet %d, %s: got %.1f V against %.1f V", doc, name, got, want)
	}
}

// mainsOf returns the mains by node. A star point that is no conductor stands at 0.
func mainsOf(n *circuit.Network) map[circuit.Node]float64 {
	out := map[circuit.Node]float64{}
	for _, bus := range n.Buses {
		for k, c := range bus.Conductors {
			if bus.Mains != nil {
				out[c.Node] = bus.MainsOf(k)
			}
		}
	}
	return out
}
