package spice

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
)

const (
	lineDelay = 100e-9 // s
	lineStep  = 1e-9   // s
)

// TestLineEnds compares with the textbook reflections of a step of 1 V that
// comes from a matched source of 2 V.
func TestLineEnds(t *testing.T) {
	const z = 100.0
	tests := []struct {
		name      string
		end       float64 // ohm
		near, far float64 // V, peaks after both have seen the reflection
	}{
		{"open", 1e9, 2, 2},
		{"matched", z, 1, 1},
		{"half", z / 2, 1, 2.0 / 3},
		{"short", 1e-3, 1, 2e-5},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b := newBench()
			near0, far := b.bus("near", "A"), b.bus("far", "A")
			b.Lines = []circuit.Line{{Name: "line", A: near0, B: far, Z: circuit.Balanced{Own: 70, Mutual: 30}.Matrix(1), Delay: lineDelay}}
			b.source(near0[0], circuit.Earth, 2, z, step())
			b.resistor(far[0], circuit.Earth, test.end)
			found := simulate(t, b.Network, lineStep, 5*lineDelay)
			near(t, found, "peak_lg_near", test.near, 1e-3) // exact but for the last bits of the rise
			near(t, found, "peak_lg_far", test.far, 1e-3)
		})
	}
}

// TestLineDelay wants the crest of a sharp wave at the far end one delay later.
func TestLineDelay(t *testing.T) {
	b := newBench()
	near0, far := b.bus("near", "A"), b.bus("far", "A")
	b.Lines = []circuit.Line{{Name: "line", A: near0, B: far, Z: circuit.Balanced{Own: 100}.Matrix(1), Delay: lineDelay}}
	shape := step()
	shape.Fall = 10e-9
	b.source(near0[0], circuit.Earth, 2, 100, shape)
	b.resistor(far[0], circuit.Earth, 100)
	found := simulate(t, b.Network, 0.1e-9, 2*lineDelay)
	if got := found["time_lg_far"] - found["time_lg_near"]; math.Abs(got-lineDelay) > 0.2e-9 { // two steps
		t.Errorf("got a delay of %g s, want %g", got, lineDelay)
	}
}

// TestLineModes drives bundles in such a way that one mode alone travels, from
// a source and into an end that are matched to that mode.
func TestLineModes(t *testing.T) {
	const own, shared = 60.0, 45.0
	for _, letters := range []string{"AN", "ABN", "ABCN"} {
		t.Run("common mode of "+letters, func(t *testing.T) {
			b := newBench()
			near0, far := b.bundle(letters, circuit.Balanced{Own: own, Mutual: shared}, circuit.Balanced{})
			z := own + float64(len(letters))*shared
			for i := range near0 {
				b.source(near0[i], circuit.Earth, 2, z, step())
				b.resistor(far[i], circuit.Earth, z)
			}
			found := simulate(t, b.Network, lineStep, 5*lineDelay)
			for _, name := range []string{"peak_lg_near", "peak_lg_far", "peak_ng_far"} {
				near(t, found, name, 1, 1e-3) // exact but for the leak
			}
			if got := found["peak_ln_far"]; got > 1e-6 { // rounding
				t.Errorf("got %g V between conductors, want none", got)
			}
		})
		t.Run("differential mode of "+letters, func(t *testing.T) {
			b := newBench()
			near0, far := b.bundle(letters, circuit.Balanced{Own: own, Mutual: shared}, circuit.Balanced{})
			last := len(letters) - 1
			b.source(near0[0], near0[last], 2, 2*own, step())
			b.resistor(far[0], far[last], 2*own)
			found := simulate(t, b.Network, lineStep, 5*lineDelay)
			near(t, found, "peak_ln_near", 1, 1e-3)
			near(t, found, "peak_ln_far", 1, 1e-3)
			near(t, found, "peak_lg_far", 0.5, 1e-3)
			near(t, found, "peak_ng_far", 0.5, 1e-3)
		})
	}
}

// bundle adds two buses and the line between them.
func (b bench) bundle(letters string, z, r circuit.Balanced) (near0, far []circuit.Node) {
	near0, far = b.bus("near", letters), b.bus("far", letters)
	b.Lines = []circuit.Line{{Name: "line", A: near0, B: far, Z: z.Matrix(len(letters)), R: r, Delay: lineDelay}}
	return near0, far
}

// TestLineMatrix drives one conductor of a bundle whose others are open: by the
// matrix they show Mutual over Own + Mutual of its voltage.
func TestLineMatrix(t *testing.T) {
	const own, shared = 60.0, 45.0
	b := newBench()
	near0, _ := b.bundle("ABCN", circuit.Balanced{Own: own, Mutual: shared}, circuit.Balanced{})
	b.source(near0[0], circuit.Earth, 2, own+shared, step())
	found := simulate(t, b.Network, lineStep, 1.9*lineDelay) // before anything comes back
	near(t, found, "peak_lg_near", 1, 1e-3)
	near(t, found, "peak_ng_near", shared/(own+shared), 1e-3)
	near(t, found, "peak_ll_near", own/(own+shared), 1e-3)
}

// TestLineOfConductorsApart does the same, and adds a second wave before the first
// comes back: each conductor has a distance of its own, and the second lies between the first and
// the third, so that there is less than nothing between those.
func TestLineOfConductorsApart(t *testing.T) {
	z := circuit.Matrix{{140, 60, 20}, {60, 70, 40}, {20, 40, 110}}
	if y := z.Inverse(3); y[0][2] <= 0 {
		t.Fatalf("got %g S between the outer conductors, want that above zero in the matrix", y[0][2])
	}
	b := newBench()
	near0, far := b.bus("near", "ABN"), b.bus("far", "ABN")
	b.Lines = []circuit.Line{{Name: "line", A: near0, B: far, Z: z, Delay: lineDelay}}
	b.source(near0[0], circuit.Earth, 2, 140, step())
	found := simulate(t, b.Network, lineStep, 1.9*lineDelay)
	near(t, found, "peak_lg_near", 1, 1e-3)
	near(t, found, "peak_ng_near", 20.0/140, 1e-3)
	near(t, found, "peak_ll_near", 80.0/140, 1e-3)
	near(t, found, "peak_lg_far", 2, 1e-3) // open ends
	near(t, found, "peak_ng_far", 40.0/140, 1e-3)
	near(t, found, "peak_ll_far", 160.0/140, 1e-3)
}

// TestLineResistance lets all reflections die out: what is left is the
// resistance in its two parts, in both modes.
func TestLineResistance(t *testing.T) {
	tests := []struct {
		name    string
		letters string
		z, r    circuit.Balanced
		ohms    float64 // of the line in the common mode
	}{
		{"one conductor", "A", circuit.Balanced{Own: 30, Mutual: 20}, circuit.Balanced{Own: 7, Mutual: 3}, 10},
		{"two", "AN", circuit.Balanced{Own: 30, Mutual: 10}, circuit.Balanced{Own: 4, Mutual: 3}, 10},
		{"four", "ABCN", circuit.Balanced{Own: 30, Mutual: 5}, circuit.Balanced{Own: 4, Mutual: 1.5}, 10},
		{"own alone", "AB", circuit.Balanced{Own: 30, Mutual: 10}, circuit.Balanced{Own: 10}, 10},
		{"shared alone", "AB", circuit.Balanced{Own: 30, Mutual: 10}, circuit.Balanced{Mutual: 5}, 10},
		{"shared resistance without shared wave", "AB", circuit.Balanced{Own: 50}, circuit.Balanced{Mutual: 5}, 10},
		{"nothing shared", "AB", circuit.Balanced{Own: 50}, circuit.Balanced{Own: 10}, 10},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b := newBench()
			near0, far := b.bundle(test.letters, test.z, test.r)
			for i := range near0 { // 50 ohm is the common mode of all; 60 ohm makes the sum of reflections rise
				b.source(near0[i], circuit.Earth, 1, 50, step())
				b.resistor(far[i], circuit.Earth, 60)
			}
			found := simulate(t, b.Network, 5e-9, 20*lineDelay)
			near(t, found, "peak_lg_far", 60/(50+test.ohms+60), 1e-3) // a divider
		})
	}
}

// TestLineResistanceDifferential does the same with a current that comes back
// on another conductor: the shared resistance has no part in it.
func TestLineResistanceDifferential(t *testing.T) {
	for _, letters := range []string{"AB", "ABCN"} {
		b := newBench()
		near0, far := b.bundle(letters, circuit.Balanced{Own: 50, Mutual: 20}, circuit.Balanced{Own: 10, Mutual: 5})
		for i := range near0 {
			volts := [...]float64{1, -1, 0, 0}[i]
			b.source(near0[i], circuit.Earth, volts, 50, step())
			b.resistor(far[i], circuit.Earth, 60)
		}
		found := simulate(t, b.Network, 5e-9, 20*lineDelay)
		near(t, found, "peak_lg_far", 60/(50+10+60.0), 1e-3)
		near(t, found, "peak_ll_far", 2*60/(50+10+60.0), 1e-3)
	}
}

// TestLineIntoCapacitor is the textbook case of a line that ends in a
// capacitor: 2 V (1 - e^(-t/ZC)) after the arrival of 1 V.
func TestLineIntoCapacitor(t *testing.T) {
	b := newBench()
	near0, far := b.bundle("A", circuit.Balanced{Own: 100}, circuit.Balanced{})
	b.source(near0[0], circuit.Earth, 2, 100, step())
	b.Capacitors = []circuit.Capacitor{{Name: "end", A: far[0], Farads: 5e-9}}
	found := simulate(t, b.Network, lineStep, lineDelay+501e-9)  // 1 ns is the mean delay of the rise
	near(t, found, "peak_lg_far", 2*(1-math.Exp(-1)), 0.5/100.0) // 1.264 V
}
