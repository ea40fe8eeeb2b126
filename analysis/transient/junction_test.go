package transient

import (
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
)

// onward is a line, matched at its far end, or a resistance.
type onward struct {
	ohms     float64
	resistor bool
}

// junction returns what a step of the given volts on an impedance makes of a
// junction with others: the voltage there, that of the wave that returns, and
// the wave on each branch, found at its far end.
func junction(t *testing.T, volts, z float64, branches []onward) (across, back float64, branch []float64) {
	t.Helper()
	n, at := arriving(volts, z)
	for i, b := range branches {
		if b.resistor {
			resist(n, at, circuit.Earth, b.ohms)
			continue
		}
		far := point(n, fmt.Sprintf("far %d", i))
		join(n, at, far, b.ohms, microsec)
		resist(n, far, circuit.Earth, b.ohms)
	}
	w := waves(t, n, 1e-8, 4*microsec)
	last := len(w[0].Values) - 1
	for _, far := range w[2:] {
		branch = append(branch, far.Values[last])
	}
	return w[1].Values[last], w[0].Values[last] - volts, branch
}

// One line onward. Rows a, b, d and c: Chakrabarti and others, A Textbook on
// Power System Engineering, example 2.13.4, p. 366; Gonen, Electric Power
// Transmission System Engineering, examples 7.5, p. 361, and 7.4, p. 356; Ray,
// Electrical Power Systems, example 12.1, p. 408. The last: t = 2 Z2/(Z1+Z2).
func TestReflectionAndTransmission(t *testing.T) {
	for _, row := range []struct {
		name                             string
		volts, z                         float64
		next                             onward
		throughV, backV, throughA, backA float64
	}{
		{"a: 60 to 400 ohm", 100 * kilo, 60, onward{ohms: 400}, 173.91 * kilo, 73.91 * kilo, 434.8, -1231.9},
		{"b: 400 to 40 ohm", 200 * kilo, 400, onward{ohms: 40}, 36.36 * kilo, -163.64 * kilo, 909.1, 409.1},
		{"c: 400 ohm to a resistor of 500", 5000, 400, onward{500, true}, 5555.56, 555.56, 11.111, -1.3889},
		{"d: 400 to 350 ohm", 100 * kilo, 400, onward{ohms: 350}, 93.33 * kilo, -6.67 * kilo, 266.7, 16.67},
		{"100 to 50 ohm", 3, 100, onward{ohms: 50}, 2, -1, 0.04, 0.01},
	} {
		t.Run(row.name, func(t *testing.T) {
			across, back, _ := junction(t, row.volts, row.z, []onward{row.next})
			within(t, "voltage that goes on", across, row.throughV, printed)
			within(t, "voltage that returns", back, row.backV, printed)
			within(t, "current that goes on", across/row.next.ohms, row.throughA, printed)
			within(t, "current that returns", -back/row.z, row.backA, printed)
		})
	}
}

// Several lines onward. Chakrabarti and others, example 2.13.6, p. 367; Ray,
// example 12.2, p. 408. The last: n like lines in all let 2/n through.
func TestBranches(t *testing.T) {
	for _, row := range []struct {
		name        string
		volts, z    float64
		next        []float64
		across, bkV float64
		amps        []float64
	}{
		{"a: 100 ohm to 600 and 1000", 2 * kilo, 100, []float64{600, 1000}, 3158, 1158, []float64{5.263, 3.158}},
		{"b: 400 ohm to 350 and 50", 100 * kilo, 400, []float64{350, 50}, 19.72 * kilo, -80.28 * kilo, []float64{56.34, 394.4}},
		{"four like lines", 1, 70, []float64{70, 70, 70}, 0.5, -0.5, []float64{0.5 / 70, 0.5 / 70, 0.5 / 70}},
	} {
		t.Run(row.name, func(t *testing.T) {
			var next []onward
			for _, ohms := range row.next {
				next = append(next, onward{ohms: ohms})
			}
			across, back, branch := junction(t, row.volts, row.z, next)
			within(t, "junction", across, row.across, printed)
			within(t, "voltage that returns", back, row.bkV, printed)
			for i, want := range row.amps {
				within(t, "current of a branch", branch[i]/row.next[i], want, printed)
			}
		})
	}
}

// Three lines in series, 500, 70 and 600 ohm, 20 kV: Chakrabarti and others,
// example 2.13.5, p. 366. The end of all reflections is that of the two outer
// lines alone.
func TestLattice(t *testing.T) {
	n, first := arriving(20*kilo, 500)
	second, far := point(n, "second"), point(n, "far")
	const short = 0.1 * microsec
	join(n, first, second, 70, short)
	join(n, second, far, 600, microsec)
	resist(n, far, circuit.Earth, 600)
	const step = 1e-8
	w := waves(t, n, step, 30*microsec)[2].Values
	arrives := at(microsec+short, step) + 1
	about(t, "before", w[arrives-1], 0, exact)
	within(t, "first", w[arrives], 8.80*kilo, printed)
	within(t, "after one more round trip", w[arrives+at(2*short, step)], 14.05*kilo, printed)
	within(t, "at last", w[len(w)-1], 2*20*kilo*600/(500+600), printed)
}

// An open line that weakens a wave to 0.8 of itself in each pass: Naidu and
// Kamaraju, High Voltage Engineering, example 8.6, p. 353, with its running
// values worked out. The resistance of a line of this model sits at its ends
// and would not weaken a wave without reflecting it, so the loss is a matched
// pad in the middle: R = Z (1-k)/(1+k) in series on either side of 2 k Z/(1-k²)
// to earth let k through and reflect nothing.
func TestLossPerPass(t *testing.T) {
	const z, k, delay, step = 400.0, 0.8, microsec, 1e-8
	n := &circuit.Network{}
	near, load := point(n, "near"), point(n, "load")
	left, middle, right := n.AddNode("left"), n.AddNode("middle"), n.AddNode("right")
	drive(n, near, 1, 1e-6, step1())
	join(n, near, left, z, delay/2)
	resist(n, left, middle, z*(1-k)/(1+k))
	resist(n, middle, circuit.Earth, 2*k*z/(1-k*k))
	resist(n, middle, right, z*(1-k)/(1+k))
	join(n, right, load, z, delay/2)
	w := waves(t, n, step, 80*microsec)[1].Values
	for i, want := range []float64{1.6, 0.576, 1.2314, 0.8119, 1.0804, 0.9086} {
		within(t, fmt.Sprintf("load in pass %d", i+1), w[at(float64(2*i+1)*delay, step)+1], want, printed)
	}
	within(t, "load at last", w[len(w)-1], 0.9756, printed)
}

// A wave on a long line with resistance and no leakage is weakened by
// e^(-Rl/2Z) when it arrives. The resistance of a line of this model sits at
// its ends, so the line is a chain of many.
func TestLossOfAChain(t *testing.T) {
	for _, row := range []struct {
		name                   string
		volts, ohms, z, metres float64
		want, share            float64
	}{
		// Wadhwa, High Voltage Engineering, example 7.6, p. 228, exact value.
		{"6 ohm/km, 50 km", 50 * kilo, 6e-3, 400, 50e3, 34.364 * kilo, 2e-3},
		// Ray, Electrical Power Systems, example 12.5, p. 410.
		{"74 µohm/m, halved after 6660 km", 1, 74e-6, 355.7, 6.66e6, 0.5, 2e-3},
	} {
		t.Run(row.name, func(t *testing.T) {
			const sections, step = 300, 1e-6
			n := &circuit.Network{}
			from := point(n, "from")
			drive(n, from, 2*row.volts, row.z, step1())
			for range sections - 1 {
				to := n.AddNode("joint")
				section(n, from, to, row.z, row.ohms*row.metres/sections, step)
				from = to
			}
			end := point(n, "end")
			section(n, from, end, row.z, row.ohms*row.metres/sections, step)
			resist(n, end, circuit.Earth, row.z)
			w := waves(t, n, step, (sections+2)*step)[1].Values
			within(t, "front", w[sections+1], row.want, row.share)
			if row.volts > 1 { // the same example: its power
				within(t, "power", w[sections+1]*w[sections+1]/row.z, 2952*kilo, 2*row.share)
			}
		})
	}
}

// section is a short piece of a line with resistance.
func section(n *circuit.Network, a, b circuit.Node, z, ohms, delay float64) {
	join(n, a, b, z, delay)
	n.Lines[len(n.Lines)-1].R = circuit.Balanced{Own: ohms}
}

// The energy of a square wave on a line is what it brings: V² t/Z.
func TestEnergyOfAMatchedStep(t *testing.T) {
	n, end := arriving(kilo, 100)
	resist(n, end, circuit.Earth, 100)
	r := run(t, n, Options{Step: 1e-8, Duration: 5 * microsec})
	within(t, "stored in the line", r.Energy.Stored, kilo*kilo/100*microsec, 1e-4)
	within(t, "delivered", r.Energy.Delivered, 2*kilo*kilo/100*5*microsec, 1e-4)
	if math.IsNaN(r.Energy.Error()) || r.Energy.Error() > 1e-4 {
		t.Errorf("balance: got %g", r.Energy.Error())
	}
}
