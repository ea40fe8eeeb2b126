package assess_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/spice"
	"clampline/analysis/transient"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// BenchmarkTransient is what follows each edit: all three usual surge cases of a
// building of so many parts.
func BenchmarkTransient(b *testing.B) {
	for _, n := range []int{30, 100, 1000} {
		doc := diagramtest.Building(n).Snapshot()
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var engine assess.Engine
			b.ReportAllocs()
			for b.Loop() {
				if _, err := engine.Transient(context.Background(), doc, diagram.FirstPlan); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkDemo is what follows an edit of the first demo, with its own surge cases
// and with one that arrives at every board and load.
func BenchmarkDemo(b *testing.B) {
	doc := filetest.Demos(b)[0]
	everywhere := analysis.SurgesOf(doc)[0]
	everywhere.Places = diagram.EveryBus
	for _, row := range []struct {
		name   string
		coarse bool
		surges []diagram.Surge
	}{{"own", false, nil}, {"own, coarse", true, nil}, {"everywhere", false, []diagram.Surge{everywhere}}} {
		b.Run(row.name, func(b *testing.B) {
			engine := assess.Engine{Coarse: row.coarse}
			for b.Loop() {
				if _, err := engine.Transient(context.Background(), doc, doc.Plans()[0].ID, row.surges...); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkAgainstSimulator solves one surge case of each demo and of a building
// here, and has ngspice run the deck of the same circuit once. It tells how many
// times faster the solver is, at the same step and at the longest step by which
// the simulator's peaks stay within 1 %.
func BenchmarkAgainstSimulator(b *testing.B) {
	if _, ok := spice.Find(); !ok {
		b.Skip("ngspice is not installed; go run ./cmd/dev bench installs it")
	}
	docs := map[string]*diagram.Document{"building of 60 parts": diagramtest.Building(60)}
	for _, doc := range filetest.Demos(b) {
		docs[doc.Info().Title] = doc
	}
	for name, doc := range docs {
		b.Run(name, func(b *testing.B) { against(b, doc) })
	}
}

func against(b *testing.B, doc *diagram.Document) {
	var engine assess.Engine
	_, cases, err := engine.Cases(context.Background(), doc, doc.Plans()[0].ID, analysis.SurgesOf(doc)[0])
	if err != nil {
		b.Fatal(err)
	}
	c := cases[0].Circuit
	for b.Loop() {
		solver, err := transient.New(context.Background(), c.Network, transient.Options{Step: c.Step, Duration: c.Duration})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := solver.Run(context.Background()); err != nil {
			b.Fatal(err)
		}
	}
	ours := b.Elapsed().Seconds() / float64(b.N)
	b.ReportMetric(simulated(b, c, c.Step)/ours, "times-faster-same-step")
	b.ReportMetric(simulated(b, c, c.DeckStep())/ours, "times-faster-same-peaks")
}

// simulated returns how long the simulator takes for a circuit, s.
func simulated(b *testing.B, c assess.Circuit, step float64) float64 {
	b.Helper()
	var deck strings.Builder
	if err := spice.Write(context.Background(), &deck, c.Network, spice.Options{Step: step, Duration: c.Duration}); err != nil {
		b.Fatal(err)
	}
	begun := time.Now()
	if _, err := spice.Run(context.Background(), deck.String()); err != nil {
		b.Fatal(err)
	}
	return time.Since(begun).Seconds()
}
