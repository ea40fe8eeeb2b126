package spice

import (
	"context"
	"math"
	"strings"
	"testing"
	"time"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// simulate runs the deck of a network and returns what it measured, by name.
func simulate(t *testing.T, n *circuit.Network, step, duration float64) map[string]float64 {
	t.Helper()
	needSimulator(t)
	output := runDeck(t, deckOf(t, n, Options{Title: t.Name(), Step: step, Duration: duration}))
	values, err := ParseMeasures(strings.NewReader(output), n)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]float64{}
	for i, m := range Measures(n) {
		found[m.Name] = values[i]
	}
	return found
}

func needSimulator(t *testing.T) {
	t.Helper()
	if _, ok := Find(); !ok {
		t.Skip("ngspice is not installed")
	}
}

func runDeck(t *testing.T, deck string) string {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	output, err := Run(ctx, deck)
	if err != nil {
		t.Fatal(err)
	}
	return output
}

// near fails the test where a measure is not within a share of what is wanted.
func near(t *testing.T, found map[string]float64, name string, want, tolerance float64) {
	t.Helper()
	got, ok := found[name]
	if !ok {
		t.Errorf("there is no %s", name)
	} else if math.Abs(got-want) > tolerance*math.Abs(want) {
		t.Errorf("%s: got %.6g, want %.6g within %.2g %%", name, got, want, 100*tolerance)
	}
}

// step is a voltage that rises within a few nanoseconds and then stays.
func step() waveform.Shape {
	return waveform.Shape{Name: "step", Form: waveform.Exponential, Scale: 1, Rise: 1e-9, Fall: 1}
}

// bench is a network in the making.
type bench struct{ *circuit.Network }

func newBench() bench { return bench{&circuit.Network{}} }

// bus adds a bus of the given letters with a leak to earth, too weak to matter.
func (b bench) bus(name, letters string) []circuit.Node {
	bus := circuit.Bus{Name: name}
	var nodes []circuit.Node
	for _, letter := range []byte(letters) {
		node := b.AddNode(name + " " + string(letter))
		b.resistor(node, circuit.Earth, 1e9)
		bus.Conductors = append(bus.Conductors, circuit.Conductor{Letter: letter, Node: node})
		nodes = append(nodes, node)
	}
	b.Buses = append(b.Buses, bus)
	return nodes
}

func (b bench) resistor(x, y circuit.Node, ohms float64) {
	b.Resistors = append(b.Resistors, circuit.Resistor{Name: "resistor", A: x, B: y, Ohms: ohms})
}

func (b bench) source(x, y circuit.Node, volts, ohms float64, shape waveform.Shape) {
	b.Sources = append(b.Sources, circuit.Source{Name: "source", A: x, B: y, Volts: volts, Ohms: ohms, Shape: shape})
}

func TestHostileNamesRun(t *testing.T) {
	needSimulator(t)
	o := sampleOptions()
	o.Duration = 2e-6
	plain := simulate(t, sample(), o.Step, o.Duration)
	for i := range hostileNames {
		names := append(append([]string{}, hostileNames[i:]...), hostileNames[:i]...)
		n := sample(names...)
		o.Title, o.Notes = names[0], names
		values, err := ParseMeasures(strings.NewReader(runDeck(t, deckOf(t, n, o))), n)
		if err != nil {
			t.Fatalf("names from %q on: %v", names[0], err)
		}
		for k, m := range Measures(sample()) {
			if want := plain[m.Name]; math.Abs(values[k]-want) > 1e-5*math.Abs(want) { // a name changes no number
				t.Errorf("names from %q on: %s is %g, want %g", names[0], m.Name, values[k], want)
			}
		}
	}
}

func TestRunBreaksOff(t *testing.T) {
	needSimulator(t)
	n := sample()
	tests := []struct {
		name, from, to string
		reason         string
	}{
		{"no convergence", "reltol=1e-4 abstol=1e-6 vntol=1e-4", "reltol=1e-30 abstol=1e-40 vntol=1e-40", "too small"},
		{"no such element", "Rres1_", "Qres1_", "rror"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			deck := strings.Replace(deckOf(t, n, sampleOptions()), test.from, test.to, 1)
			output, err := Run(t.Context(), deck)
			if err == nil || !strings.Contains(err.Error(), "ngspice: exit status 1: ") {
				t.Errorf("got error %v, want one of ngspice", err)
			}
			if _, err := ParseMeasures(strings.NewReader(output), n); err == nil || !strings.Contains(err.Error(), test.reason) {
				t.Errorf("got error %v, want one with %q", err, test.reason)
			}
		})
	}
}

func TestRunEnds(t *testing.T) {
	needSimulator(t)
	ctx, cancel := context.WithTimeout(t.Context(), 200*time.Millisecond)
	defer cancel()
	deck := deckOf(t, building(30, 9), Options{Step: 1e-9, Duration: 1e-3}) // minutes of work
	start := time.Now()
	if _, err := Run(ctx, deck); err != context.DeadlineExceeded {
		t.Errorf("got error %v, want that the time is over", err)
	}
	if took := time.Since(start); took > 10*time.Second {
		t.Errorf("ended after %v", took)
	}
}

// TestWorstConductor wants the greatest magnitude of each mode, whichever
// conductors it is between and whatever its sign.
func TestWorstConductor(t *testing.T) {
	tests := []struct {
		name           string
		volts          [4]float64 // of A, B, C and N
		ln, lg, ng, ll float64
	}{
		{"first", [4]float64{-3, 1, 0, 1}, 4, 3, 1, 4},
		{"second", [4]float64{1, -3, 2, 1}, 4, 3, 1, 5},
		{"third", [4]float64{1, 0, 4, -2}, 6, 4, 2, 4},
		{"neutral", [4]float64{0, 0, 1, -7}, 8, 1, 7, 1},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b := newBench()
			for i, node := range b.bus("panel", "ABCN") {
				b.source(node, circuit.Earth, test.volts[i], 1, step())
			}
			found := simulate(t, b.Network, 1e-9, 100e-9)
			for name, want := range map[string]float64{"peak_ln_panel": test.ln, "peak_lg_panel": test.lg, "peak_ng_panel": test.ng, "peak_ll_panel": test.ll} {
				near(t, found, name, want, 1e-5) // the leak takes 1e-9 of it
			}
		})
	}
}

// TestBuilding runs protectors with coupled leads behind reflecting lines,
// where the simulator has the most trouble to converge, and looks at the whole
// of it: the first bus is held near what its protector lets through.
func TestBuilding(t *testing.T) {
	n := building(10, 4)
	found := simulate(t, n, 20e-9, 60e-6)
	if got := found["peak_lg_panel_1"]; got < 400 || got > 800 {
		t.Errorf("got %.4g V at the first bus", got)
	}
	half := simulate(t, n, 10e-9, 60e-6)
	for name, want := range half {
		if strings.HasPrefix(name, "peak") && want > 50 {
			near(t, found, name, want, 0.01) // the steps resolve the waves
		}
	}
}

func BenchmarkBuilding(b *testing.B) {
	if _, ok := Find(); !ok {
		b.Skip("ngspice is not installed")
	}
	deck := deckOf(b, building(30, 9), Options{Step: 20e-9, Duration: 100e-6})
	for b.Loop() {
		if _, err := Run(b.Context(), deck); err != nil {
			b.Fatal(err)
		}
	}
}
