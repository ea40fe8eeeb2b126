package transient

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

func TestNewRefuses(t *testing.T) {
	good := Options{Step: 1e-8, Duration: 1e-6}
	change := func(f func(o *Options)) Options {
		o := good
		f(&o)
		return o
	}
	for _, row := range []struct {
		name    string
		options Options
		put     func(n *circuit.Network)
		want    string
	}{
		{"no step", change(func(o *Options) { o.Step = 0 }), nil, "the step is 0 s"},
		{"step no number", change(func(o *Options) { o.Step = math.NaN() }), nil, "the step is NaN s"},
		{"step without end", change(func(o *Options) { o.Step = math.Inf(1) }), nil, "the step is +Inf s"},
		{"no duration", change(func(o *Options) { o.Duration = -1 }), nil, "the duration is -1 s"},
		{"duration no number", change(func(o *Options) { o.Duration = math.NaN() }), nil, "the duration is NaN s"},
		{"too many steps", change(func(o *Options) { o.Duration = 1 }), nil, "are too many"},
		{"negative samples", change(func(o *Options) { o.Samples = -1 }), nil, "-1 samples"},
		{"step longer than a line", change(func(o *Options) { o.Step = 3e-8 }), nil, "line bus 0 to bus 1: its delay"},
		{"line without end", Options{Step: 1e-9, Duration: 0.02}, func(n *circuit.Network) { n.Lines[0].Delay = 0.01 },
			"line bus 0 to bus 1: a wave is under way on it for 1e+04 µs"},
		{"no such bus", change(func(o *Options) { o.Record = []Probe{{Bus: 2}} }), nil, "there is no bus 2"},
		{"no such conductor", change(func(o *Options) { o.Record = []Probe{{0, circuit.Pair{From: 4}}} }), nil, "bus bus 0: there is no pair"},
		{"no such other conductor", change(func(o *Options) { o.Record = []Probe{{0, circuit.Pair{From: 0, To: -2}}} }), nil, "bus bus 0: there is no pair"},
		{"invalid network", good, func(n *circuit.Network) { n.Resistors[0].Ohms = -1 }, "bus 0 leak A: the resistance is -1"},
		{"conductor on nothing", good, func(n *circuit.Network) {
			n.Buses = append(n.Buses, circuit.Bus{Name: "spare", Conductors: []circuit.Conductor{{Letter: 'A', Node: n.AddNode("spare A")}}})
		}, "spare: a conductor of it is connected to nothing"},
		{"impedances far apart", good, func(n *circuit.Network) {
			a, b := n.AddNode("far"), n.AddNode("farther")
			n.Resistors = append(n.Resistors, circuit.Resistor{Name: "short", A: a, B: b, Ohms: 1e-12}, circuit.Resistor{Name: "leak", A: b, B: circuit.Earth, Ohms: 1e8})
		}, "far: the impedances round it lie too far apart"},
		{"node on nothing", good, func(n *circuit.Network) { n.AddNode("loose") }, "loose: a conductor of it is connected to nothing"},
	} {
		t.Run(row.name, func(t *testing.T) {
			n := &circuit.Network{}
			addLine(n, addBus(n, "bus 0", "AN"), addBus(n, "bus 1", "AN"), 4) // 20 ns
			if row.put != nil {
				row.put(n)
			}
			defer func() {
				if p := recover(); p != nil {
					t.Errorf("got a panic: %v", p)
				}
			}()
			_, err := New(context.Background(), n, row.options)
			if err == nil {
				t.Fatal("got no error")
			}
			if got := err.Error(); !strings.Contains(got, row.want) {
				t.Errorf("got %q, want it to hold %q", got, row.want)
			}
		})
	}
}

// A duration that is no whole number of steps is lengthened to one, and a
// line may be as short as the step.
func TestStepsOfARun(t *testing.T) {
	for _, row := range []struct {
		name           string
		step, duration float64
		want           int
	}{
		{"whole", 1e-8, 1e-6, 100},
		{"a bit more", 1e-8, 1.001e-6, 101},
		{"a bit less", 1e-8, 0.999e-6, 100},
		{"less than one", 1e-8, 1e-9, 1},
		{"as long as the line", 2e-8, 1e-6, 50},
	} {
		n := &circuit.Network{}
		addLine(n, addBus(n, "bus 0", "AN"), addBus(n, "bus 1", "AN"), 4)
		r := run(t, n, Options{Step: row.step, Duration: row.duration, Record: toEarth(n)})
		if r.Steps != row.want || r.Step != row.step {
			t.Errorf("%s: got %d steps of %g s, want %d of %g", row.name, r.Steps, r.Step, row.want, row.step)
		}
		if got := len(r.Traces[1].Values); got != row.want+1 {
			t.Errorf("%s: got %d values kept, want %d", row.name, got, row.want+1)
		}
	}
}

// Peaks and their times are those of the waves.
func TestPeaksAreThoseOfTheWaves(t *testing.T) {
	n := building(6, 2)
	var record []Probe
	for bus := range n.Buses {
		for _, p := range circuit.Pairs(4) {
			record = append(record, Probe{bus, p})
		}
	}
	r := run(t, n, Options{Step: 1e-8, Duration: 20 * microsec, Record: record})
	for i, p := range record {
		value, when := r.Traces[i].Peak()
		got := r.Buses[p.Bus][i%10]
		about(t, n.Buses[p.Bus].PairName(p.Pair), got.Volts, math.Abs(value), 0)
		about(t, n.Buses[p.Bus].PairName(p.Pair)+", time", got.At, when, 1e-15)
	}
}

func TestSameInputSameResult(t *testing.T) {
	for seed := range uint64(20) {
		n, step := random(seed, false)
		o := Options{Step: step, Duration: 5 * microsec, Samples: 3, Record: toEarth(n)}
		if diff := cmp.Diff(run(t, n, o), run(t, n, o), cmpopts.IgnoreUnexported(Duty{})); diff != "" {
			t.Errorf("network %d: got another result the second time\n%s", seed, diff)
		}
	}
}

// impatient is a context that ends after it has been asked a few times.
type impatient struct {
	context.Context
	left int
}

func (c *impatient) Err() error {
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}

func TestRunCanBeCancelled(t *testing.T) {
	for _, asked := range []int{0, 1, 5} {
		s, err := New(context.Background(), building(3, 1), Options{Step: 1e-8, Duration: 1e-3})
		if err != nil {
			t.Fatal(err)
		}
		c := &impatient{context.Background(), asked}
		if r, err := s.Run(c); !errors.Is(err, context.Canceled) || r != nil {
			t.Errorf("asked %d times: got %v, %v", asked, r, err)
		}
		if c.left != -1 {
			t.Errorf("got the context asked %d times more after its end", -1-c.left)
		}
	}
}

// A run of ten times as many steps allocates as often: nothing does in a step.
func TestStepsDoNotAllocate(t *testing.T) {
	n := building(10, 3)
	tube(n, n.Buses[2].Conductors[0].Node, 500, 1)
	n.AddCombination("one-sided", n.Buses[4].Conductors[1].Node, circuit.Earth, waveform.OneSided(6000, 2))
	often := func(duration float64) float64 {
		return testing.AllocsPerRun(3, func() { run(t, n, Options{Step: 1e-8, Duration: duration, Samples: 3}) })
	}
	if short, long := often(5*microsec), often(50*microsec); long > short {
		t.Errorf("got %g allocations in 5000 steps and %g in 500", long, short)
	}
}
