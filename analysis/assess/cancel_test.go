package assess_test

import (
	"context"
	"errors"
	"io"
	"testing"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/extract"
	"clampline/analysis/fault"
	"clampline/analysis/handrule"
	"clampline/analysis/rule"
	"clampline/analysis/spice"
	"clampline/analysis/transient"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// atOnce is within what an analysis ends that nobody waits for any more.
const atOnce = 100 * time.Millisecond

// limit returns atOnce, or more where the machine is busy: longer in proportion
// where tracing a building of 10 000 parts takes longer than the usual 20 ms.
func limit(doc *diagram.Document) time.Duration {
	begun := time.Now()
	analysis.Trace(doc)
	return max(atOnce, time.Since(begun)*(atOnce/(20*time.Millisecond)))
}

// entry is a way into the analysis that takes a context.
type entry struct {
	name string
	run  func(context.Context) error
}

// Whenever the context ends, each entry point ends soon, on sheets of 10 000
// parts.
func TestAnalysesStopSoon(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes half a minute")
	}
	yardstick := diagramtest.Building(10_000)
	for _, e := range largeEntries(t) {
		t.Run(e.name, func(t *testing.T) {
			for _, after := range []time.Duration{0, 10 * time.Millisecond, 50 * time.Millisecond, 200 * time.Millisecond, time.Second} {
				if !stopsAfter(t, e, after, func() time.Duration { return limit(yardstick) }) {
					return // it ends before on its own
				}
			}
		})
	}
}

// stopsAfter cuts an entry short, and reports whether there was something to cut.
// The best of five tries counts: other work on the machine may hold up one.
func stopsAfter(t *testing.T, e entry, after time.Duration, within func() time.Duration) bool {
	t.Helper()
	best := time.Hour
	for range 5 {
		ctx, cancel := context.WithCancel(context.Background())
		cut := make(chan time.Time, 1)
		timer := time.AfterFunc(after, func() {
			cut <- time.Now()
			cancel()
		})
		err := e.run(ctx)
		if timer.Stop() {
			cancel()
			return false
		}
		if took := time.Since(<-cut); took < best {
			best = took
		}
		if err != nil && !errors.Is(err, context.Canceled) {
			t.Fatalf("after %v: got error %v", after, err)
		}
		if best < within() {
			return true
		}
	}
	t.Errorf("cut after %v: it went on for %v, want at most %v", after, best, within())
	return true
}

func largeEntries(t *testing.T) []entry {
	var out []entry
	add := func(name string, run func(context.Context) error) { out = append(out, entry{name, run}) }
	building, random := diagramtest.Building(10_000), diagramtest.Random(diagramtest.Rand(1), 10_000)
	for name, doc := range map[string]*diagram.Document{"building": building, "random": random} {
		topology := analysis.Trace(doc)
		faults := diagramtest.Must(fault.Solve(context.Background(), doc, topology))
		add(name+", hand rule", func(ctx context.Context) error {
			_, err := handrule.Solve(ctx, doc, diagram.FirstPlan, topology, handrule.DefaultRule())
			return err
		})
		add(name+", faults", func(ctx context.Context) error {
			_, err := fault.Solve(ctx, doc, topology)
			return err
		})
		add(name+", rules", func(ctx context.Context) error {
			_, err := rule.Check(ctx, rule.Input{Document: doc, Plan: diagram.FirstPlan, Topology: topology, Faults: faults})
			return err
		})
		add(name+", all of the hand rule", func(ctx context.Context) error {
			_, err := assess.Run(ctx, doc, diagram.FirstPlan)
			return err
		})
		add(name+", transient", func(ctx context.Context) error {
			_, err := new(assess.Engine).Transient(ctx, doc, diagram.FirstPlan)
			return err
		})
		add(name+", bands", func(ctx context.Context) error {
			result, err := new(assess.Engine).Transient(ctx, doc, diagram.FirstPlan)
			if err == nil {
				_, err = new(assess.Engine).Band(ctx, doc, result, assess.BandOptions{})
			}
			return err
		})
	}
	return append(out, circuitEntries(t, building)...)
}

func circuitEntries(t *testing.T, doc *diagram.Document) []entry {
	_, cases, err := new(assess.Engine).Cases(context.Background(), doc, diagram.FirstPlan, analysis.SurgesOf(doc)[0])
	if err != nil {
		t.Fatal(err)
	}
	c := cases[0].Circuit
	options := transient.Options{Step: c.Step, Duration: c.Duration, Samples: 7}
	bare := extract.Input{Document: diagramtest.Building(10_000), Plan: "none", Topology: analysis.Trace(doc), Surge: c.Surge}
	return []entry{
		{"one circuit", func(ctx context.Context) error {
			_, err := extract.Network(ctx, bare)
			return err
		}},
		{"solver made ready", func(ctx context.Context) error {
			_, err := transient.New(ctx, c.Network, options)
			return err
		}},
		{"solved", func(ctx context.Context) error {
			s, err := transient.New(ctx, c.Network, options)
			if err != nil {
				return err
			}
			_, err = s.Run(ctx)
			return err
		}},
		{"half the step", func(ctx context.Context) error {
			_, err := transient.Halve(ctx, c.Network, options, &transient.Result{})
			return err
		}},
		{"waves", func(ctx context.Context) error {
			_, err := assess.Waves(ctx, c, 0)
			return err
		}},
		{"deck", func(ctx context.Context) error {
			return spice.Write(ctx, io.Discard, c.Network, spice.Options{Title: "large", Step: c.DeckStep(), Duration: c.Duration})
		}},
		{"simulator", func(ctx context.Context) error {
			if _, ok := spice.Find(); !ok {
				return nil
			}
			_, err := spice.Run(ctx, "* a long run\nv1 1 0 sin(0 1 1k)\nr1 1 0 1\n.tran 1n 10\n.print tran v(1)\n.end\n")
			return err
		}},
	}
}
