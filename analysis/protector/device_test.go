package protector

import (
	"context"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/transient"
	"clampline/analysis/waveform"
)

// device is one varistor without capacitance behind an inductance, between a
// terminal and earth.
func device(t *testing.T, m Material, henries float64) (*circuit.Network, circuit.Node) {
	t.Helper()
	n := &circuit.Network{}
	end, inner := n.AddNode("end"), n.AddNode("inner")
	n.Buses = []circuit.Bus{{Name: "end", Conductors: []circuit.Conductor{{Letter: 'A', Node: end}}}}
	n.Inductors = []circuit.Inductor{{Name: "lead", Branches: []circuit.Branch{{A: end, B: inner}}, Henries: []float64{henries}, Ohms: []float64{0}}}
	n.Varistors = []circuit.Varistor{{Name: "varistor", A: inner, Curve: m.Curve("curve", 1)}}
	return n, end
}

// run solves a network; it must be solvable.
func run(t *testing.T, n *circuit.Network, step, duration float64) *transient.Result {
	t.Helper()
	r, err := solve(context.Background(), n, transient.Options{Step: step, Duration: duration})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// ideal drives a current of a shape with an exact crest through the device.
func ideal(t *testing.T, m Material, henries, amps float64, shape waveform.Shape, step, duration float64) *transient.Result {
	t.Helper()
	n, end := device(t, m, henries)
	crest, _ := waveform.Sample(shape, step, int(duration/step)).Peak()
	n.Sources = []circuit.Source{{Name: "surge", A: end, Volts: amps / crest * stiffOhms, Shape: shape, Ohms: stiffOhms}}
	return run(t, n, step, duration)
}

// The peak across a varistor and its straight lead of 1 uH/m at an ideal 8/20
// current, from evaluating v(i) + L di/dt directly. 0.5 %: half of that are the
// straight pieces and the step.
func TestVaristorWithLead(t *testing.T) {
	lengths := []float64{0, 0.15, 0.3, 0.5, 1, 2} // m
	for _, row := range []struct {
		name string
		amps float64
		want []float64
	}{
		{"disc 20 mm, 150 V", 500, []float64{408, 410, 415, 426, 459, 530}},
		{"disc 20 mm, 150 V", 3000, []float64{529, 554, 609, 692, 911, 1355}},
		{"disc 20 mm, 320 V", 3000, []float64{1086, 1100, 1140, 1213, 1421, 1859}},
		{"block 40 mm, 150 V", 3000, []float64{441, 479, 541, 629, 851, 1297}},
		{"block 40 mm, 150 V", 10000, []float64{535, 697, 915, 1211, 1955, 3445}},
		{"block 40 mm, 320 V", 3000, []float64{951, 971, 1021, 1101, 1317, 1759}},
		{"block 40 mm, 320 V", 10000, []float64{1169, 1277, 1477, 1764, 2501, 3987}},
		{"block 40 mm, 320 V", 20000, []float64{1385, 1639, 2058, 2641, 4122, 7098}},
		{"block 40 mm, 550 V", 10000, []float64{2108, 2173, 2336, 2602, 3319, 4795}},
	} {
		m := material(t, row.name)
		for i, want := range row.want {
			henries := max(lengths[i]*1e-6, 1e-12)
			r := ideal(t, m, henries, row.amps, waveform.Current8x20(), 20e-9, 20e-6)
			within(t, row.name, r.Buses[0][0].Volts, want, 5e-3)
		}
	}
}

// Energies from evaluating the integral of v(i) i directly. 0.5 % as above.
func TestVaristorEnergy(t *testing.T) {
	for _, row := range []struct {
		name           string
		amps           float64
		shape          waveform.Shape
		step, duration float64 // s
		peak, joules   float64
	}{
		{"disc 20 mm, 130 V", 3000, waveform.Current8x20(), 20e-9, 100e-6, 451.3, 21.93},
		{"disc 20 mm, 150 V", 3000, waveform.Current8x20(), 20e-9, 100e-6, 528.6, 25.63},
		{"disc 20 mm, 250 V", 3000, waveform.Current8x20(), 20e-9, 100e-6, 832.4, 40.71},
		{"disc 20 mm, 320 V", 3000, waveform.Current8x20(), 20e-9, 100e-6, 1086.3, 53.07},
		{"block 40 mm, 150 V", 10000, waveform.Current8x20(), 20e-9, 100e-6, 534.9, 86.39},
		{"block 40 mm, 320 V", 10000, waveform.Current8x20(), 20e-9, 100e-6, 1168.7, 187.8},
		{"disc 20 mm, 150 V", 220, waveform.Wave10x1000(), 0.5e-6, 8e-3, 378.9, 111.6},
	} {
		r := ideal(t, material(t, row.name), 1e-12, row.amps, row.shape, row.step, row.duration)
		within(t, row.name+" peak", r.Buses[0][0].Volts, row.peak, 5e-3)
		within(t, row.name+" energy", r.Varistors[0].Joules, row.joules, 5e-3)
	}
}

// Two leads on a 130 V block, one combination wave of 6 kV and 3 kA: figures of
// two independent solutions of the same circuit. 2 %: they differ by that.
func TestLeadsPerMetre(t *testing.T) {
	m := material(t, "block 32 mm, 130 V")
	for _, row := range []struct {
		name     string
		perMetre float64 // H/m, of each lead
		inches   float64
		want     float64
	}{
		{"separate, 6 in", 1e-6, 6, 491}, {"separate, 12 in", 1e-6, 12, 631}, {"separate, 18 in", 1e-6, 18, 770}, {"separate, 26 in", 1e-6, 26, 948},
		{"bundled, 6 in", 0.211e-6, 6, 402}, {"bundled, 26 in", 0.211e-6, 26, 480},
	} {
		n, _ := device(t, m, 2*row.perMetre*row.inches*0.0254+20e-9)
		l := &listing{network: n, outer: circuit.Pair{From: 0, To: circuit.ToEarth}, gap: none}
		l.driveCombination()
		within(t, row.name, run(t, n, 10e-9, 20e-6).Buses[0][0].Volts, row.want, 0.02)
	}
}

// A lead of 1 uH/m at the steepest part of an 8/20 of 3 kA: 447 V/m, 11.4 V per
// inch (0.1490 of the crest per us, from the formula of IEEE C62.45-2002).
func TestLeadDrop(t *testing.T) {
	slope, _ := waveform.Sample(waveform.Current8x20(), 10e-9, 2000).SteepestSlope()
	within(t, "V/m", 3000*slope*1e-6, 447, 0.01)
	within(t, "V per inch", 3000*slope*1e-6*0.0254, 11.4, 0.01)
}
