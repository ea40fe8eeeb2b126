package transient

import (
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// valve adds a diode that is ideal as far as the tests here can tell.
func valve(n *circuit.Network, a, b circuit.Node) {
	n.Diodes = append(n.Diodes, circuit.Diode{Name: "valve", A: a, B: b, On: 1e-6, Off: 1e9})
}

// asRun is the trapezoidal rule with halves where something jumps: a charged
// capacitor is such a jump.
func asRun() rule { return rule{name: "trapezoidal", asRun: true} }

// A charged capacitor is shorted through an inductor, a resistance and a diode.
// The current is V/ωL e^-at sin ωt for half a period, with a = R/2L and ω² =
// 1/LC - a², and leaves the capacitor at -V e^(-aπ/ω). The diode turned round
// lets nothing through. The trapezoidal rule is wrong by the square of a step,
// which is a thousandth of the half period; the backward Euler rule by the step.
func TestDiodeEndsAHalfWave(t *testing.T) {
	const volts, farads, henries, ohms = 1000.0, 2e-6, 5e-6, 0.5
	a := ohms / (2 * henries)
	w := math.Sqrt(1/(henries*farads) - a*a)
	half := math.Pi / w
	const perHalf, steps = 1000, 2000
	for _, row := range []struct {
		rule  rule
		share float64
	}{{asRun(), 1e-5}, {rules()[1], 2e-3}} {
		for _, charged := range []float64{volts, -volts} {
			t.Run(fmt.Sprintf("%s, %g V", row.rule.name, charged), func(t *testing.T) {
				n := &circuit.Network{}
				top, end := point(n, "capacitor"), point(n, "resistance")
				inside := n.AddNode("inside")
				store(n, top, circuit.Earth, farads, charged)
				wind(n, top, inside, henries, 0)
				valve(n, inside, end)
				resist(n, end, circuit.Earth, ohms)
				got := under(t, row.rule, n, half/perHalf, steps)
				for k := 1; k <= steps; k++ {
					at := min(float64(k)*half/perHalf, half)
					fall := math.Exp(-a * at)
					v := volts * fall * (math.Cos(w*at) + a/w*math.Sin(w*at))
					i := volts / (w * henries) * fall * math.Sin(w*at)
					if charged < 0 {
						v, i = charged, 0
					}
					about(t, fmt.Sprintf("step %d: capacitor", k), got[0][k], v, row.share*volts)
					about(t, fmt.Sprintf("step %d: resistance", k), got[1][k], i*ohms, row.share*volts)
				}
			})
		}
	}
}

// A voltage E e^(-t/s) charges a capacitor through a resistance R and a diode:
// E s/(s-RC) (e^(-t/s) - e^(-t/RC)) until that is as much as the source, where
// the current ends and the capacitor keeps its charge.
func TestDiodeKeepsACharge(t *testing.T) {
	const volts, ohms, farads, fall = 1000.0, 10.0, 1e-6, 20e-6
	const tau = ohms * farads
	end := math.Log(fall/tau) * fall * tau / (fall - tau)
	const perEnd, steps = 1000, 3000
	shape := step1()
	shape.Fall = fall
	for _, row := range []struct {
		rule  rule
		share float64
	}{{asRun(), 1e-6}, {rules()[1], 1e-3}} {
		t.Run(row.rule.name, func(t *testing.T) {
			n := &circuit.Network{}
			from, top := n.AddNode("from"), point(n, "capacitor")
			drive(n, from, volts, ohms, shape)
			valve(n, from, top)
			store(n, top, circuit.Earth, farads, 0)
			got := under(t, row.rule, n, end/perEnd, steps)[0]
			for k := 1; k <= steps; k++ {
				at := min(float64(k)*end/perEnd, end)
				want := volts * fall / (fall - tau) * (math.Exp(-at/fall) - math.Exp(-at/tau))
				about(t, fmt.Sprintf("step %d", k), got[k], want, row.share*volts)
			}
		})
	}
}

// What a diode takes forth and back is its resistance.
func TestDiodeHasItsResistances(t *testing.T) {
	for _, row := range []struct{ volts, want float64 }{{100, 100 * 5 / 15.0}, {-100, -100 * 1000 / 1010.0}} {
		n := &circuit.Network{}
		bus := point(n, "bus")
		drive(n, bus, row.volts, 10, step1())
		n.Diodes = []circuit.Diode{{Name: "poor", A: bus, On: 5, Off: 1000}}
		r := run(t, n, Options{Step: 1e-8, Duration: 1e-6, Record: toEarth(n)})
		v := r.Traces[0].Values
		within(t, "voltage", v[len(v)-1], row.want, 1e-6)
		about(t, "balance of energy", r.Energy.Error(), 0, 1e-3)
	}
}

// oneSided returns the 6 kV, 2 ohm generator of surge cases at a bus, turned
// round where volts is negative.
func oneSided(volts float64) (*circuit.Network, circuit.Node) {
	n := &circuit.Network{}
	out := point(n, "output")
	n.AddCombination("generator", out, circuit.Earth, waveform.OneSided(volts, 2))
	return n, out
}

// Open, the one-sided generator is that of the laboratory; a hundredth of a per
// cent is what its diode may take.
func TestOneSidedGeneratorOpen(t *testing.T) {
	for _, volts := range []float64{6 * kilo, -6 * kilo} {
		n, _ := oneSided(volts)
		got := waves(t, n, 2e-9, 80*microsec)[0]
		plain := &circuit.Network{}
		addGenerator(plain, "generator", point(plain, "output"), circuit.Earth, volts, 2)
		want := waves(t, plain, 2e-9, 80*microsec)[0]
		for k, v := range got.Values {
			about(t, fmt.Sprintf("%g V, step %d", volts, k), v, want.Values[k], 1e-4*6*kilo)
		}
		within(t, "front", measured(t, got.VoltageFront), 1.2*microsec, 5e-3)
		within(t, "tail", measured(t, got.VoltageTail), 50*microsec, 5e-3)
	}
}

// Shorted it is 8/20 with a crest of 3 kA, and nothing follows the half wave.
func TestOneSidedGeneratorShorted(t *testing.T) {
	const short = 1e-6 // ohm
	for _, sign := range []float64{1, -1} {
		n, out := oneSided(sign * 6 * kilo)
		resist(n, out, circuit.Earth, short)
		w := waves(t, n, 2e-9, 100*microsec)[0]
		for i := range w.Values {
			w.Values[i] *= sign / short
		}
		crest, when := w.Peak()
		within(t, "crest", crest, 2998, 1e-3)
		within(t, "time of the crest", when, 10.3*microsec, 5e-3)
		within(t, "front", measured(t, w.CurrentFront), 8*microsec, 5e-3)
		within(t, "tail", measured(t, w.CurrentTail), 20*microsec, 5e-3)
		for k, i := range w.Values {
			if i < -1e-5*crest || float64(k)*2e-9 > 30*microsec && i > 1e-5*crest {
				t.Fatalf("step %d: got %g A", k, i)
			}
		}
	}
}

// The clamp of TestCombinationGeneratorIntoAClamp takes in all what it takes of
// the laboratory's generator in the first half wave: 44.7 mC and 17.9 J.
func TestOneSidedGeneratorIntoAClamp(t *testing.T) {
	n, out := oneSided(6 * kilo)
	limit(n, out, clamp(400))
	r := run(t, n, Options{Step: 2e-9, Duration: 100 * microsec})
	within(t, "charge", r.Varistors[0].Coulombs, 44.7e-3, 2e-3)
	within(t, "energy", r.Varistors[0].Joules, 17.9, 2e-3)
	about(t, "balance of energy", r.Energy.Error(), 0, 1e-3)
}

// The current by the whole curve, of which rounds that cut a step make use, is that of
// the piece at each voltage.
func TestDiodeCurrentIsThatOfItsPieces(t *testing.T) {
	d := newDiode(0, 1, circuit.Diode{On: 5, Off: 1000})
	for v, want := range map[float64]float64{-100: -0.1, -0.5: -0.5e-3, 0: 0, 0.5: 0.1, 100: 20} {
		d.move(d.toward(v, 1))
		about(t, fmt.Sprintf("%g V", v), d.current(v), want, 1e-15)
		about(t, fmt.Sprintf("%g V by its piece", v), d.g*v, want, 1e-15)
	}
}
