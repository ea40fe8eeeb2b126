package assess_test

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"clampline/analysis/assess"
	"clampline/analysis/circuit"
	"clampline/analysis/spice"
	"clampline/analysis/transient"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// The exported deck of every demo and of random buildings, run by ngspice, a
// general circuit simulator that shares nothing with the solver here: every
// peak within 1 % or 5 V, the current, charge and energy of every protector
// within 2 %, or 5 A, 0.1 mC and 50 mJ where one hardly conducts.
func TestAgainstSimulator(t *testing.T) {
	if testing.Short() {
		t.Skip("takes two minutes")
	}
	if _, ok := spice.Find(); !ok {
		t.Skip("ngspice is not installed; go run ./cmd/dev test installs it")
	}
	for _, doc := range filetest.Demos(t) {
		for _, plan := range doc.Plans() {
			t.Run(doc.Info().Title+", "+plan.Name, func(t *testing.T) {
				t.Parallel()
				crosscheck(t, doc.Snapshot(), plan.ID, 0, assess.FewSurges(doc)...)
			})
		}
	}
	t.Run("between floating conductors", func(t *testing.T) {
		t.Parallel()
		it := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.IT, Frequency: 50}
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: it})
			tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel})
			run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "panel"}, 0.5)
		})
		crosscheck(t, doc, diagram.FirstPlan, soon, arriving("", diagram.LineToNeutral))
	})
	for seed := range uint64(randomBuildings) {
		t.Run(fmt.Sprintf("building %d", seed), func(t *testing.T) {
			t.Parallel()
			doc := plausibleBuilding(seed)
			surges := assess.FewSurges(doc)
			crosscheck(t, doc, diagram.FirstPlan, soon, surges[seed%uint64(len(surges))])
		})
	}
}

// randomBuildings is how many buildings are compared: one of each system.
const randomBuildings = 20

// soon is for how long random buildings are compared, s: by then most peaks are
// over and most of the energy is spent. The simulator takes seconds for it.
const soon = 25e-6

// crosscheck compares surge cases for a duration; 0 is the whole of it, of the circuit
// that has filters in loads of which nothing is said the beginning.
func crosscheck(t *testing.T, doc *diagram.Document, plan diagram.ID, duration float64, surges ...diagram.Surge) {
	var engine assess.Engine
	_, cases, err := engine.Cases(context.Background(), doc, plan, surges...)
	if err != nil {
		t.Fatal(err)
	}
	var alone []assess.Case
	for _, c := range cases {
		alone = append(alone, c.Alone()...)
	}
	for _, solved := range alone {
		c := solved.Circuit
		duration := cmp.Or(duration, c.Duration)
		if c.Filtered {
			duration = min(duration, soon)
		}
		solver, err := transient.New(context.Background(), c.Network, transient.Options{Step: c.Step, Duration: duration})
		if err != nil {
			t.Fatal(err)
		}
		ours, err := solver.Run(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		var deck strings.Builder
		if err := spice.Write(context.Background(), &deck, c.Network, spice.Options{Step: c.DeckStep(), Duration: duration}); err != nil {
			t.Fatal(err)
		}
		printed, err := spice.Run(context.Background(), deck.String())
		if err != nil {
			t.Fatalf("%s: %v", c.Surge.Name, err)
		}
		theirs, err := spice.ParseMeasures(strings.NewReader(printed), c.Network)
		if err != nil {
			t.Fatal(err)
		}
		compare(t, c, ours, theirs)
	}
}

func compare(t *testing.T, c assess.Circuit, ours *transient.Result, theirs []float64) {
	t.Helper()
	worst := 0.0
	for i, m := range spice.Measures(c.Network) {
		if m.Kind == spice.PeakTime || m.Kind == spice.PeakAmps && m.Gap >= 0 {
			continue // a flat crest has no sharp time; a gap that fires empties the capacitances beside it within any step
		}
		got, share, floor := 0.0, 0.02, 0.0
		duty := dutyOf(ours, m)
		switch m.Kind {
		case spice.PeakVolts:
			got, share, floor = peakOf(c.Network.Buses[m.Bus], ours.Buses[m.Bus], m.Mode), 0.01, 5
		case spice.PeakAmps:
			got, floor = duty.Amps, 5
		case spice.Charge:
			got, floor = duty.Coulombs, 1e-4
		case spice.Energy:
			got, floor = duty.Joules, 0.05
		}
		off := math.Abs(got-theirs[i]) / max(share*math.Abs(theirs[i]), floor)
		worst = max(worst, off)
		if off > 1 {
			t.Errorf("%s, %s: got %.5g, the simulator %.5g", c.Surge.Name, m.Name, got, theirs[i])
		}
	}
	t.Logf("%s: %d buses, %d varistors, worst at %.0f %% of what is allowed", c.Surge.Name, len(c.Network.Buses), len(c.Network.Varistors), 100*worst)
}

// dutyOf returns what the varistor or gap of a measure went through.
func dutyOf(r *transient.Result, m spice.Measure) transient.Duty {
	switch {
	case m.Varistor >= 0:
		return r.Varistors[m.Varistor]
	case m.Gap >= 0:
		return r.Gaps[m.Gap]
	}
	return transient.Duty{}
}

// peakOf returns the greatest peak of a bus in a mode.
func peakOf(bus circuit.Bus, peaks []transient.Peak, mode string) float64 {
	worst := 0.0
	for i, pair := range circuit.Pairs(len(bus.Conductors)) {
		if bus.Kind(pair).String() == mode {
			worst = max(worst, peaks[i].Volts)
		}
	}
	return worst
}
