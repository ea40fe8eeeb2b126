package transient

import (
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// combination returns the 6 kV, 2 ohm combination generator as elements, at a
// bus.
func combination() (*circuit.Network, circuit.Node) {
	n := &circuit.Network{}
	out := point(n, "output")
	addGenerator(n, "generator", out, circuit.Earth, 6*kilo, 2)
	return n, out
}

// measured returns what a measure finds; it must find something.
func measured(t *testing.T, what func() (float64, error)) float64 {
	t.Helper()
	v, err := what()
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// 1.2/50 open and 8/20 shorted: IEC 60060-1 and IEC 61000-4-5, and the values
// worked out from the elements of Carobbi and Bonci, IEEE EMC Magazine, 2013.
func TestCombinationGeneratorOpen(t *testing.T) {
	n, _ := combination()
	w := waves(t, n, 2e-9, 80*microsec)[0]
	crest, when := w.Peak()
	within(t, "crest", crest, 6*kilo, 5e-3)
	within(t, "time of the crest", when, 2.09*microsec, 1e-2)
	within(t, "front", measured(t, w.VoltageFront), 1.2*microsec, 5e-3)
	within(t, "tail", measured(t, w.VoltageTail), 50*microsec, 5e-3)
}

func TestCombinationGeneratorShorted(t *testing.T) {
	n, out := combination()
	const short = 1e-6 // ohm
	resist(n, out, circuit.Earth, short)
	w := waves(t, n, 2e-9, 60*microsec)[0]
	for i := range w.Values {
		w.Values[i] /= short
	}
	crest, when := w.Peak()
	within(t, "crest", crest, 2998, 5e-3)
	within(t, "effective impedance", 6*kilo/crest, 2, 5e-3)
	within(t, "time of the crest", when, 10.3*microsec, 5e-3)
	within(t, "front", measured(t, w.CurrentFront), 8*microsec, 5e-3)
	within(t, "tail", measured(t, w.CurrentTail), 20*microsec, 5e-3)
	slope, began := w.SteepestSlope()
	within(t, "slope at first", slope, 584e6, 1e-2)
	if began > 10e-9 {
		t.Errorf("steepest slope: got it at %g s, want it at once", began)
	}
	least := 0.0
	for _, v := range w.Values {
		least = min(least, v)
	}
	about(t, "undershoot", -least/crest, 0.337, 0.01)
}

// An ideal clamp of 400 V, solved apart from this program: crest, charge and
// energy of the first half wave, which ends where the clamp lets go.
func TestCombinationGeneratorIntoAClamp(t *testing.T) {
	n, out := combination()
	limit(n, out, clamp(400))
	const step = 2e-9
	v := waves(t, n, step, 40*microsec)[0].Values
	half := 1
	for v[half] < 400 {
		half++
	}
	for v[half] >= 400 {
		half++
	}
	r := run(t, n, Options{Step: step, Duration: float64(half) * step})
	duty := r.Varistors[0]
	within(t, "crest", duty.Amps, 2783, 2e-3)
	within(t, "time of the crest", duty.At, 10.3*microsec, 5e-3)
	within(t, "charge", duty.Coulombs, 44.7e-3, 2e-3)
	within(t, "energy", duty.Joules, 17.9, 2e-3)
	within(t, "voltage", r.Buses[0][0].Volts, 400, 1e-5)
}

// IEEE C62.41.2-2002 (from memory): the ring wave of 6 kV through 30 ohm; its
// clamp takes (6000-400)/30 A.
func TestRingWaveIntoAClamp(t *testing.T) {
	n := &circuit.Network{}
	out := point(n, "output")
	drive(n, out, 6*kilo, 30, waveform.Ring100kHz())
	limit(n, out, clamp(400))
	r := run(t, n, Options{Step: 5e-9, Duration: 20 * microsec})
	within(t, "crest", r.Varistors[0].Amps, 187, 1e-2)
}

// Salam and others, High-Voltage Engineering, 16.7.6, p. 560: 0.125 µF charged
// to 100 kV with 544 ohm across it, 360 ohm in series, 1 nF. The constants are
// those of the exact solution; the book reads 0.015 and 2.80 from charts.
func TestImpulseGenerator(t *testing.T) {
	n := &circuit.Network{}
	charged, load := n.AddNode("charged"), point(n, "load")
	store(n, charged, circuit.Earth, 0.125e-6, 100*kilo)
	resist(n, charged, circuit.Earth, 544)
	resist(n, charged, load, 360)
	store(n, load, circuit.Earth, 1e-9, 0)
	w := waves(t, n, 2e-9, 80*microsec)[0]
	crest, _ := w.Peak()
	within(t, "crest", crest, 96.51*kilo, 2e-3)
	within(t, "front", measured(t, w.VoltageFront), 1.067*microsec, 2e-3)
	within(t, "tail", measured(t, w.VoltageTail), 49.96*microsec, 2e-3)
	for k, v := range w.Values {
		us := float64(k) * 2e-3
		want := 99.722 * kilo * (math.Exp(-0.01459*us) - math.Exp(-2.8001*us))
		about(t, fmt.Sprintf("at %.3f µs", us), v, want, 2e-3*96.51*kilo)
	}
}

// A inductor and a capacitor without loss, fed by a voltage that rises evenly for a
// time and stays: 1 + |sin x|/x times it, x = pi times the time over the period.
func TestOvershoot(t *testing.T) {
	const henries, farads = 5e-6, 5e-9
	period := 2 * math.Pi * math.Sqrt(henries*farads)
	for _, row := range []struct{ share, want float64 }{{0.25, 1.900}, {0.5, 1.637}, {1, 1.000}, {1.5, 1.212}} {
		t.Run(fmt.Sprintf("%.2f periods", row.share), func(t *testing.T) {
			n := &circuit.Network{}
			feed, end := point(n, "feed"), point(n, "end")
			rising(n, feed, 100, row.share*period)
			wind(n, feed, end, henries, 0)
			store(n, end, circuit.Earth, farads, 0)
			r := run(t, n, Options{Step: period / 2000, Duration: 4 * period})
			within(t, "feed", r.Buses[0][0].Volts, 100, 1e-3)
			within(t, "end", r.Buses[1][0].Volts, 100*row.want, 5e-3)
		})
	}
}

// rising holds a node on a voltage that rises evenly for a time: a ramp behind
// next to no impedance, from which a shorted line takes the same ramp later.
func rising(n *circuit.Network, node circuit.Node, volts, time float64) {
	const z = 1e-4
	end := n.AddNode("end of the shorted line")
	drive(n, node, 2*volts/time, z, ramp())
	join(n, node, end, z, time/2)
	resist(n, end, circuit.Earth, 1e-9)
}
