package transient

import (
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// bundle returns a line of m like conductors of 1 µs, each driven at its near
// end through a resistance by a step, open at the far end.
func bundle(z circuit.Balanced, ohms float64, volts ...float64) *circuit.Network {
	n := &circuit.Network{}
	letters := "ABCN"[:len(volts)]
	near, far := addBus(n, "near", letters), addBus(n, "far", letters)
	for i, v := range volts {
		drive(n, near.Conductors[i].Node, v, ohms, step1())
	}
	n.Lines = append(n.Lines, circuit.Line{Name: "bundle", A: nodes(near), B: nodes(far), Z: z.Matrix(len(volts)), Delay: microsec})
	return n
}

// What a source sees of a bundle is Own + m Mutual where all conductors are
// driven alike, and Own where the currents sum to nothing; what it sees of one
// conductor with the others at rest is the voltage divider of the inverse.
func TestModesOfABundle(t *testing.T) {
	z := circuit.Balanced{Own: 70, Mutual: 35}
	for _, row := range []struct {
		name  string
		volts []float64
		mode  float64 // ohm
	}{
		{"one", []float64{100}, 105},
		{"two alike", []float64{100, 100}, 140},
		{"three alike", []float64{100, 100, 100}, 175},
		{"four alike", []float64{100, 100, 100, 100}, 210},
		{"two against each other", []float64{100, -100}, 70},
		{"one against two", []float64{100, -50, -50}, 70},
		{"one against three", []float64{99, -33, -33, -33}, 70},
		{"two against each other, two at rest", []float64{0, 100, -100, 0}, 70},
	} {
		t.Run(row.name, func(t *testing.T) {
			const ohms, step = 50.0, 1e-8
			m := len(row.volts)
			var record []Probe
			for i := range m {
				record = append(record, Probe{0, circuit.Pair{From: i, To: circuit.ToEarth}}, Probe{1, circuit.Pair{From: i, To: circuit.ToEarth}})
			}
			r := run(t, bundle(z, ohms, row.volts...), Options{Step: step, Duration: 1.5 * microsec, Record: record})
			for i, volts := range row.volts {
				want := volts * row.mode / (row.mode + ohms)
				about(t, fmt.Sprintf("near, conductor %d", i), r.Traces[2*i].Values[1], want, 1e-3)
				about(t, fmt.Sprintf("far, conductor %d", i), r.Traces[2*i+1].Values[102], 2*want, 1e-3)
				for j := range i {
					got := pairPeak(r, 1, m, j, i)
					about(t, fmt.Sprintf("far, %d against %d", j, i), got, math.Abs(2*want-2*row.volts[j]*row.mode/(row.mode+ohms)), 1e-3)
				}
			}
		})
	}
}

// pairPeak returns the peak, two conductors of a bus.
func pairPeak(r *Result, bus, m, from, to int) float64 {
	for i, p := range circuit.Pairs(m) {
		if p == (circuit.Pair{From: from, To: to}) {
			return r.Buses[bus][i].Volts
		}
	}
	return math.NaN()
}

// Resistance that the conductors share is in series with the common mode only:
// half of it at each end. The wave that goes in is that of R/2 + Z, that which
// is seen at the open end after it twice the wave.
func TestResistanceOfABundle(t *testing.T) {
	z, ohms := circuit.Balanced{Own: 70, Mutual: 35}, circuit.Balanced{Own: 8, Mutual: 6}
	for _, row := range []struct {
		name  string
		volts []float64
		z, r  float64
	}{
		{"three alike", []float64{100, 100, 100}, 175, 26},
		{"four alike", []float64{100, 100, 100, 100}, 210, 32},
		{"two of three", []float64{100, -100, 0}, 70, 8},
		{"two of four", []float64{0, 100, 0, -100}, 70, 8},
	} {
		t.Run(row.name, func(t *testing.T) {
			n := bundle(z, 50, row.volts...)
			n.Lines[0].R = ohms
			w := run(t, n, Options{Step: 1e-8, Duration: 1.5 * microsec, Record: []Probe{{0, circuit.Pair{From: 1, To: circuit.ToEarth}}, {1, circuit.Pair{From: 1, To: circuit.ToEarth}}}}).Traces
			sum := 50 + row.r/2 + row.z
			about(t, "near", w[0].Values[1], row.volts[1]*(row.r/2+row.z)/sum, 1e-3)
			about(t, "far", w[1].Values[102], 2*row.volts[1]*row.z/sum, 1e-3)
		})
	}
}

// Conductors at distances of their own, each driven alone through 50 ohm: what comes in is
// i = 1/(50 + R/2 + Z) e, the near end has (R/2 + Z) i, and the open far end twice Z i (line theory).
// The energy balance holds as for like ones.
func TestConductorsApart(t *testing.T) {
	apart := circuit.Matrix{{140, 60, 30, 10}, {60, 80, 15, 15}, {30, 15, 75, 50}, {10, 15, 50, 120}}
	for m := 1; m <= circuit.MaxConductors; m++ {
		for driven := range m {
			t.Run(fmt.Sprintf("%d of %d", driven+1, m), func(t *testing.T) {
				volts := make([]float64, m)
				volts[driven] = 100
				n := bundle(circuit.Balanced{Own: 1}, 50, volts...)
				l := &n.Lines[0]
				l.Z, l.R = circuit.Matrix{}, circuit.Balanced{Own: 8, Mutual: 6}
				for i := range m {
					copy(l.Z[i][:m], apart[i][:m])
				}
				r := run(t, n, Options{Step: 1e-8, Duration: 1.5 * microsec, Record: everyConductor(m)})
				near := l.Z.Plus(l.R.Scaled(0.5).Matrix(m))
				in := near.Plus(circuit.Balanced{Own: 50}.Matrix(m)).Inverse(m)
				for i := range m {
					about(t, fmt.Sprintf("near, conductor %d", i), r.Traces[i].Values[1], 100*near.Times(in)[i][driven], 1e-3)
					about(t, fmt.Sprintf("far, conductor %d", i), r.Traces[m+i].Values[102], 200*l.Z.Times(in)[i][driven], 1e-3)
				}
				if share := r.Energy.Error(); share > 1e-6 {
					t.Errorf("%.3g of the energy is not accounted for", share)
				}
			})
		}
	}
}

// everyConductor records m conductors of two buses.
func everyConductor(m int) (out []Probe) {
	for bus := range 2 {
		for i := range m {
			out = append(out, Probe{bus, circuit.Pair{From: i, To: circuit.ToEarth}})
		}
	}
	return out
}

// A ramp lies straight between steps, so a line brings it to the end exactly
// where its delay is no whole number of steps.
func TestDelayBetweenSteps(t *testing.T) {
	for _, row := range []struct {
		name  string
		steps float64
	}{{"one and a bit", 1.01}, {"nearly two", 1.99}, {"two and a bit", 2.01}, {"a half", 7.5}, {"a block and a half", 8.5},
		{"a third", 10 + 1.0/3}, {"nearly a whole", 12.999}, {"whole", 13}, {"many", 1234.56}} {
		for m := 1; m <= circuit.MaxConductors; m++ {
			t.Run(fmt.Sprintf("%s, %d conductors", row.name, m), func(t *testing.T) {
				const h, slope = 1e-8, 1e9
				volts := []float64{slope, slope, slope, slope}[:m]
				n := bundle(circuit.Balanced{Own: 70, Mutual: 35}, 70+35*float64(m), volts...)
				n.Lines[0].Delay = row.steps * h
				for i := range n.Sources {
					n.Sources[i].Shape = ramp()
				}
				w := run(t, n, Options{Step: h, Duration: (2*row.steps + 10) * h, Record: toEarth(n)}).Traces[1].Values
				for k := range w {
					late := float64(k) - row.steps
					if late < -2 || late > 2 { // at its foot the ramp is not straight
						about(t, fmt.Sprintf("step %d", k), w[k], slope*h*max(0, late), 1e-5*slope*h*float64(k)) // insulation: 210 ohm of 1e8, twice
					}
				}
			})
		}
	}
}

// A wave of ten steps for a period keeps its height in a line with a delay of
// no whole number of steps, and is never raised.
func TestHeightBetweenSteps(t *testing.T) {
	const h = 1e-8
	for _, steps := range []float64{20.25, 20.5, 20.75} {
		t.Run(fmt.Sprintf("%g steps", steps), func(t *testing.T) {
			n := bundle(circuit.Balanced{Own: 100}, 100, 100)
			n.Lines[0].Delay = steps * h
			n.Sources[0].Shape = waveform.Shape{Form: waveform.Ringing, Scale: 1, Rise: 20 * h, Fall: 1, Frequency: 0.0997 / h}
			w := run(t, n, Options{Step: h, Duration: 2000 * h, Record: toEarth(n)}).Traces[1].Values
			crest := 0.0
			for _, v := range w[1000:] {
				crest = max(crest, math.Abs(v))
			}
			within(t, "crest", crest, 100, 4e-3) // (9 cos x - cos 3x)/8 at x = 18°
			if crest > 100 {
				t.Errorf("crest: got %.9g, want no more than 100", crest)
			}
		})
	}
}

// The voltage inside a line, on the way from its end A to its end B: a short
// wave that goes to an open end is single on the way and double at the end. The
// places are asked for by Samples.
func TestPeaksInsideALine(t *testing.T) {
	n := bundle(circuit.Balanced{Own: 100}, 100, 200)
	n.Lines[0].Delay = 4 * microsec
	n.Sources[0].Shape.Fall = microsec // 1 µs, of 100 V at first
	const samples = 7
	r := run(t, n, Options{Step: 2e-9, Duration: 7 * microsec, Samples: samples})
	if got := len(r.Lines[0]); got != samples {
		t.Fatalf("got %d places, want %d", got, samples)
	}
	for i, p := range r.Lines[0] {
		share := float64(i+1) / (samples + 1)
		about(t, "place", p.Share, share, exact)
		// What has come back meets what has not yet gone by.
		want := max(100, 100+100*math.Exp(-2*(1-share)*4))
		within(t, fmt.Sprintf("peak at %.3f", share), p.Volts[0], want, 0.02) // looked at every eighth step
	}
	if got := run(t, n, Options{Step: 1e-8, Duration: microsec}).Lines[0]; len(got) != 0 {
		t.Errorf("got %d places, want none", len(got))
	}
}

// Inside a bundle the pairs of conductors have their own peaks: AG BG CG AB AC
// BC, of waves that 70 ohm let in.
func TestPairsInsideALine(t *testing.T) {
	alike := 100.0 * 175 / (175 + 70)
	for _, row := range []struct {
		name        string
		volts, want []float64
	}{
		{"one against one", []float64{100, -100, 0}, []float64{50, 50, 0, 100, 50, 50}},
		{"alike", []float64{100, 100, 100}, []float64{alike, alike, alike, 0, 0, 0}},
	} {
		t.Run(row.name, func(t *testing.T) {
			n := bundle(circuit.Balanced{Own: 70, Mutual: 35}, 70, row.volts...)
			r := run(t, n, Options{Step: 1e-8, Duration: 0.9 * microsec, Samples: 1})
			for i, want := range row.want {
				about(t, fmt.Sprint(circuit.Pairs(3)[i]), r.Lines[0][0].Volts[i], want, 1e-3)
			}
		})
	}
}
