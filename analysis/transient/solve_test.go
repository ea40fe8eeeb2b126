package transient

import (
	"context"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// step1 is a shape that is 1 from the start, near enough: an exponential with
// an immediate rise and no fall.
func step1() waveform.Shape {
	return waveform.Shape{Name: "step", Form: waveform.Exponential, Scale: 1, Rise: 1e-15, Fall: 1e9}
}

// ramp is a shape that is the time in seconds, near enough: the beginning of
// an exponential that takes its time.
func ramp() waveform.Shape {
	return waveform.Shape{Name: "ramp", Form: waveform.Exponential, Scale: 1e6, Rise: 1e6, Fall: 1e15}
}

// run solves a network; it must be solvable.
func run(t testing.TB, n *circuit.Network, o Options) *Result {
	t.Helper()
	s, err := New(context.Background(), n, o)
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// waves solves a network and returns the voltage of the first conductor of
// each bus to earth.
func waves(t testing.TB, n *circuit.Network, step, duration float64) []waveform.Trace {
	t.Helper()
	return run(t, n, Options{Step: step, Duration: duration, Record: toEarth(n)}).Traces
}

// toEarth asks for the first conductor of each bus.
func toEarth(n *circuit.Network) []Probe {
	out := make([]Probe, len(n.Buses))
	for i := range out {
		out[i] = Probe{Bus: i, Pair: circuit.Pair{To: circuit.ToEarth}}
	}
	return out
}

// within compares with a share of what is wanted.
func within(t testing.TB, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: got %.6g, want %.6g within %.2g %%", what, got, want, share*100)
	}
}

// about compares with a bound of the difference.
func about(t testing.TB, what string, got, want, bound float64) {
	t.Helper()
	if !(math.Abs(got-want) <= bound) {
		t.Errorf("%s: got %.9g, want %.9g within %.2g", what, got, want, bound)
	}
}

// Tolerances that several tests share.
const (
	exact    = 1e-9 // rounding only: the model is exact at its steps
	printed  = 1e-3 // a printed value: half a unit of its last digit and 0.1 %
	kilo     = 1e3
	microsec = 1e-6
)

// point adds a bus of one conductor.
func point(n *circuit.Network, name string) circuit.Node {
	return addBus(n, name, "A").Conductors[0].Node
}

// drive puts an electromotive force of a shape between a node and earth.
func drive(n *circuit.Network, at circuit.Node, volts, ohms float64, shape waveform.Shape) {
	n.Sources = append(n.Sources, circuit.Source{Name: "source", A: at, Volts: volts, Shape: shape, Ohms: ohms})
}

// join puts a line of one conductor without loss between two nodes.
func join(n *circuit.Network, a, b circuit.Node, z, delay float64) {
	n.Lines = append(n.Lines, circuit.Line{Name: "line", A: []circuit.Node{a}, B: []circuit.Node{b}, Z: circuit.Balanced{Own: z}.Matrix(1), Delay: delay, Length: delay * 2e8})
}

// resist puts a resistance between two nodes.
func resist(n *circuit.Network, a, b circuit.Node, ohms float64) {
	n.Resistors = append(n.Resistors, circuit.Resistor{Name: "resistor", A: a, B: b, Ohms: ohms})
}

// store puts a capacitance between two nodes.
func store(n *circuit.Network, a, b circuit.Node, farads, charged float64) {
	n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: "capacitor", A: a, B: b, Farads: farads, Charged: charged})
}

// wind puts an inductance between two nodes.
func wind(n *circuit.Network, a, b circuit.Node, henries, ohms float64) {
	n.Inductors = append(n.Inductors, circuit.Inductor{Name: "inductor", Branches: []circuit.Branch{{A: a, B: b}}, Henries: []float64{henries}, Ohms: []float64{ohms}})
}

// limit puts a varistor between a node and earth.
func limit(n *circuit.Network, at circuit.Node, curve *circuit.Curve) {
	n.Varistors = append(n.Varistors, circuit.Varistor{Name: "varistor", A: at, Curve: curve})
}

// clamp is an ideal clamp, near enough: from its voltage on it rises by 1 mV
// per kiloampere.
func clamp(volts float64) *circuit.Curve {
	return &circuit.Curve{Name: "clamp", Volts: []float64{0, volts, volts + 1e-3}, Amps: []float64{0, 1e-6, kilo}}
}

// arriving returns a network into whose bus "end" a step of the given volts
// travels along a line of 1 µs from a source of the line's own impedance at
// the bus "source".
func arriving(volts, z float64) (n *circuit.Network, end circuit.Node) {
	n = &circuit.Network{}
	from := point(n, "source")
	end = point(n, "end")
	drive(n, from, 2*volts, z, step1())
	join(n, from, end, z, microsec)
	return n, end
}
