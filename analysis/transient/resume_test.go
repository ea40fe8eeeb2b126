package transient

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// varied is a network with everything in it whose state a run leaves behind: tubes
// that fire and go out, a generator with a diode, a source that follows a table, and
// a line on which a wave is under way for longer than the first run.
func varied() *circuit.Network {
	n := building(8, 2)
	tube(n, n.Buses[2].Conductors[0].Node, 500, 1)
	n.AddCombination("one-sided", n.Buses[4].Conductors[1].Node, circuit.Earth, waveform.OneSided(6000, 2))
	n.Sources = append(n.Sources, circuit.Source{Name: "ring", A: n.Buses[5].Conductors[0].Node, Volts: 6000, Shape: waveform.Ring100kHz(), Ohms: 12})
	addLine(n, n.Buses[1], addBus(n, "far", "ABCN"), 2500)
	return n
}

// A run that goes on is to the bit that from the start, wherever it was held up, and
// so is what it said then: by steps, for gaps begin halves and heat is summed by block.
func TestRunsThatGoOn(t *testing.T) {
	networks := map[string]*circuit.Network{"varied": varied()}
	steps := map[string]float64{"varied": 1e-8}
	for seed := range uint64(12) {
		name := fmt.Sprint("network ", seed)
		networks[name], steps[name] = random(seed, false)
	}
	for name, n := range networks {
		h := steps[name]
		o := Options{Step: h, Duration: 1600 * h, Samples: 3, Record: toEarth(n)}
		whole := func(taken int) *Result {
			short := o
			short.Duration = float64(taken) * h
			return run(t, n, short)
		}
		same := func(what string, got, want *Result) {
			t.Helper()
			if diff := cmp.Diff(want, got, cmpopts.IgnoreUnexported(Duty{})); diff != "" {
				t.Errorf("%s, %s: -from the start +gone on\n%s", name, what, diff)
			}
		}
		s, err := New(context.Background(), n, o)
		if err != nil {
			t.Fatal(err)
		}
		stops := []int{1, 5, 8, 803, 804, 1200, 1600}
		var got []*Result
		for _, stop := range stops {
			r, err := s.RunTo(context.Background(), float64(stop)*h)
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, r)
		}
		for i, stop := range stops { // after the last, which must not have altered them
			same(fmt.Sprintf("to step %d", stop), got[i], whole(stop))
		}
	}
}

// There is no way back, none on the spot, and none beyond what room was made for.
func TestRunsThatDoNotGoOn(t *testing.T) {
	for _, row := range []struct {
		name string
		to   float64
	}{{"back", 0.5e-6}, {"on the spot", 1e-6}, {"beyond the duration", 2.1e-6}} {
		s, err := New(context.Background(), building(3, 1), Options{Step: 1e-8, Duration: 2e-6})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.RunTo(context.Background(), 1e-6); err != nil {
			t.Fatal(err)
		}
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: got no panic", row.name)
				}
			}()
			_, _ = s.RunTo(context.Background(), row.to)
		}()
	}
}
