package circuit_test

import (
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// The generator is what waveform.Generator draws: C and Rp side by side, Rs and L
// one after the other to the output, Ro across it. So a direct current meets Ro
// beside Rs and Rp in a row, and nothing else: 5 Ω beside 3 Ω and 2 Ω are 2.5 Ω.
func TestCombinationIsAsDrawn(t *testing.T) {
	n := spread(2)
	n.AddCombination("generator", 1, 2, waveform.Generator{C: 1e-6, Rp: 2, Rs: 3, L: 4e-6, Ro: 5, Charge: 6000})
	if err := n.Validate(); err != nil {
		t.Fatal(err)
	}
	if len(n.Capacitors) != 1 || len(n.Inductors) != 1 || len(n.Resistors) != 2 || n.NodeCount() != 3 {
		t.Fatalf("got %+v", n)
	}
	c, l := n.Capacitors[0], n.Inductors[0]
	if c.Farads != 1e-6 || c.Charged != 6000 || l.Mutual(0, 0) != 4e-6 {
		t.Errorf("got %+v and %+v", c, l)
	}
	conductance, inRow := 0.0, l.Ohms[0]
	for _, r := range n.Resistors {
		switch (circuit.Branch{A: r.A, B: r.B}) {
		case circuit.Branch{A: 1, B: 2}: // across the output
			conductance += 1 / r.Ohms
		case circuit.Branch{A: c.A, B: 2}: // across C
			inRow += r.Ohms
		}
	}
	if got := 1 / (conductance + 1/inRow); got != 2.5 || c.B != 2 || l.Branches[0].B != 1 {
		t.Errorf("got %g Ω from the output, %+v and %+v", got, c, l)
	}
}
