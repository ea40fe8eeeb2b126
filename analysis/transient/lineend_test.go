package transient

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
)

// What a step on a line of 100 ohm makes of its end: 2 R/(Z+R), line theory.
// The model is exact where the delay is a whole number of steps; the source has
// risen by the end of the first step.
func TestLineEnds(t *testing.T) {
	for _, row := range []struct {
		name       string
		ohms, want float64
	}{
		{"open", 1e12, 2},
		{"matched", 100, 1},
		{"shorted", 1e-9, 0},
		{"three times", 300, 1.5},
		{"half", 50, 2.0 / 3},
	} {
		t.Run(row.name, func(t *testing.T) {
			n, end := arriving(1, 100)
			resist(n, end, circuit.Earth, row.ohms)
			w := waves(t, n, 1e-8, 5e-6)
			const leak = 5e-6 // V that the insulation of the two buses takes
			about(t, "end before the wave arrives", w[1].Values[100], 0, exact)
			about(t, "end after it", w[1].Values[101], row.want, leak)
			about(t, "end to the last", w[1].Values[500], row.want, leak)
			about(t, "source before the wave is back", w[0].Values[200], 1, leak)
			about(t, "source after it", w[0].Values[201], row.want, leak)
		})
	}
}

// Ends that store: closed forms of a step e on an impedance Z.
func TestStoringLineEnds(t *testing.T) {
	for _, row := range []struct {
		name     string
		volts, z float64
		end      func(n *circuit.Network, end circuit.Node)
		after    float64 // s since the wave has arrived
		want     float64 // V
	}{
		// Wadhwa, High Voltage Engineering, example 12.4, p. 283.
		{"capacitor of 3 nF, 350 ohm, 500 kV", 500 * kilo, 350,
			func(n *circuit.Network, end circuit.Node) { store(n, end, circuit.Earth, 3e-9, 0) }, 2e-6, 851.1 * kilo},
		// Wadhwa, High Voltage Engineering, example 12.5, p. 283.
		{"inductor of 800 µH into a like line, 500 kV", 500 * kilo, 350,
			func(n *circuit.Network, end circuit.Node) { throughCoil(n, end, 800e-6, 350) }, 2e-6, 413.1 * kilo},
		// 2 (1 - e^(-t/ZC)), line theory.
		{"capacitor of 5 nF, 100 ohm, 1 V", 1, 100,
			func(n *circuit.Network, end circuit.Node) { store(n, end, circuit.Earth, 5e-9, 0) }, 0.5e-6, 1.264},
		// 2 e^(-Zt/L), line theory.
		{"inductor of 50 µH, 100 ohm, 1 V", 1, 100,
			func(n *circuit.Network, end circuit.Node) { wind(n, end, circuit.Earth, 50e-6, 0) }, 0.5e-6, 2 * math.Exp(-1)},
	} {
		t.Run(row.name, func(t *testing.T) {
			n, end := arriving(row.volts, row.z)
			row.end(n, end)
			const step = 0.5e-9 // the jump is a ramp of one step to what stores: half a step late
			w := waves(t, n, step, 4e-6)[1].Values
			within(t, "voltage", w[at(microsec+row.after, step)], row.want, printed)
		})
	}
}

// throughCoil leads from the end of the line through an inductor into a line of the
// same impedance, and calls the beginning of that one the end.
func throughCoil(n *circuit.Network, end circuit.Node, henries, z float64) {
	beyond := n.AddNode("beyond")
	last := n.AddNode("last")
	wind(n, end, beyond, henries, 0)
	join(n, beyond, last, z, 3*microsec)
	resist(n, last, circuit.Earth, z)
	n.Buses[1].Conductors[0].Node = beyond
}

// at returns the number of the step at a time.
func at(time, step float64) int { return int(math.Round(time / step)) }

// A line that is longer than the run is but its surge impedance, whatever its
// length, and takes no more memory than the run.
func TestLineThatNeverEnds(t *testing.T) {
	for _, delay := range []float64{6e-6, 1, 1e9, 1e300} {
		n := &circuit.Network{}
		a, b := point(n, "near"), point(n, "far")
		drive(n, a, 2, 100, step1())
		join(n, a, b, 100, delay)
		r := run(t, n, Options{Step: 1e-8, Duration: 5e-6, Samples: 3})
		within(t, "near end", r.Buses[0][0].Volts, 1, 1e-6)
		within(t, "far end", r.Buses[1][0].Volts, 0, 1e-6)
		if share := r.Energy.Error(); share > 1e-3 {
			t.Errorf("a delay of %g s: %.3g of the energy is not accounted for", delay, share)
		}
	}
}
