package assess

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/analysis/spice"
	"clampline/analysis/transient"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// The circuit of a run, with the mains in it, is solved by ngspice to the same peaks.
func TestBandAgainstSimulator(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	if _, ok := spice.Find(); !ok {
		t.Skip("ngspice is not installed; go run ./cmd/dev test installs it")
	}
	doc := filetest.Demos(t)[1]
	plan := doc.Plans()[len(doc.Plans())-1]
	b := banderOf(t, doc, plan.ID, nil, spansOf(doc, plan.ID))
	const soon = 15e-6 // s, by then most peaks are over
	for i, place := range hypercube(2, len(b.spans), 7, 0) {
		in := b.cases[i%len(b.cases)]
		in.Vary = vary(b.spans, place)
		made, err := extract.Network(context.Background(), in.Input)
		if err != nil {
			t.Fatal(err)
		}
		solver, err := transient.New(context.Background(), made.Network, transient.Options{Step: made.Step, Duration: soon})
		if err != nil {
			t.Fatal(err)
		}
		ours, err := solver.Run(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		var deck strings.Builder
		if err := spice.Write(context.Background(), &deck, made.Network, spice.Options{Step: made.Step / 2, Duration: soon}); err != nil {
			t.Fatal(err)
		}
		printed, err := spice.Run(context.Background(), deck.String())
		if err != nil {
			t.Fatal(err)
		}
		theirs, err := spice.ParseMeasures(strings.NewReader(printed), made.Network)
		if err != nil {
			t.Fatal(err)
		}
		for k, m := range spice.Measures(made.Network) {
			if m.Kind != spice.PeakVolts {
				continue
			}
			bus, got := made.Network.Buses[m.Bus], 0.0
			for at, pair := range circuit.Pairs(len(bus.Conductors)) {
				if bus.Kind(pair).String() == m.Mode {
					got = max(got, ours.Buses[m.Bus][at].Volts)
				}
			}
			if math.Abs(got-theirs[k]) > max(0.01*theirs[k], 5) {
				t.Errorf("run %d, %s: got %.1f V, the simulator %.1f V", i, m.Name, got, theirs[k])
			}
		}
	}
}

// Every range has its effect on the circuit, in the direction that a person expects.
func TestSpans(t *testing.T) {
	for _, row := range []struct {
		name string
		bus  diagram.ID
		span span
		sign float64 // of what comes about at the end of the range against its beginning
	}{
		{"more surge", "board", crestSpan(0.1), 1},
		{"more varistor voltage", "board", clampSpan("spd", 0.1), 1},
		{"longer leads", "board", leadSpan("spd", 0.25), 1},
		{"a filter at the load swings with its feeder", "load", loadSpan("load"), 1},
	} {
		b := smallBander(t, onLine(), row.span)
		runs := allOf(t, b, [][]float64{{0}, {1}})
		at := slices.IndexFunc(b.buses, func(r analysis.BusResult) bool { return r.ID == row.bus })
		before, after := runs[0][at][diagram.LineNeutral], runs[1][at][diagram.LineNeutral]
		if (after-before)*row.sign <= 1 {
			t.Errorf("%s: got %.1f V, then %.1f V", row.name, before, after)
		}
	}
}

// What is stated is not varied: a load that is stated, a feeder with its surge
// impedance, protectors of another plan.
func TestSpansOfWhatIsStated(t *testing.T) {
	doc := smallSheet(t)
	count := func() (out string) {
		for _, s := range spansOf(doc, diagram.FirstPlan) {
			out += fmt.Sprintf("%s %s\n", s.what, s.record)
		}
		return out
	}
	before := "crest of the surge \nmains at the moment of the surge \nvaristor voltage spd\nlead length spd\nlay of the conductors f1\nlay of the conductors f2\nload behaviour load\n"
	if diff := cmp.Diff(before, count()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		load, _ := doc.Part("load")
		load.Load.Terminals = diagram.OpenTerminals
		tx.SetPart(load)
		f, _ := doc.Feeder("f2")
		f.SurgeImpedance = 80
		tx.SetFeeder(f)
		plan := diagram.Plan{ID: "other"}
		tx.SetPlan(plan)
		p, _ := doc.Protector("spd")
		p.Plan = plan.ID
		tx.SetProtector(p)
	})
	if diff := cmp.Diff("crest of the surge \nmains at the moment of the surge \nlay of the conductors f1\n", count()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
