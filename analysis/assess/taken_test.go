package assess_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/extract"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// ringing returns a surge case that is soon over.
func ringing() diagram.Surge { return analysis.SurgesOf(diagram.New())[2] }

// unstated returns the sheet with nothing said of any load.
func unstated(t *testing.T, doc *diagram.Document) *diagram.Document {
	t.Helper()
	out := doc.Snapshot()
	diagramtest.Edit(t, out, func(tx *diagram.Tx) {
		for p := range doc.Parts() {
			if p.Kind == diagram.Load {
				p.Load.Terminals = ""
				tx.SetPart(p)
			}
		}
	})
	return out
}

// stating returns a copy of a sheet that says of every load of which nothing is said
// what a surge meets there.
func stating(t *testing.T, doc *diagram.Document, terminals diagram.Terminals) *diagram.Document {
	t.Helper()
	out := doc.Snapshot()
	diagramtest.Edit(t, out, func(tx *diagram.Tx) {
		for p := range doc.Parts() {
			if extract.IsUnstated(p) {
				p.Load.Terminals = terminals
				tx.SetPart(p)
			}
		}
	})
	return out
}

func solvedAt(t *testing.T, doc *diagram.Document, surge diagram.Surge) (*analysis.Result, assess.Case) {
	t.Helper()
	result, cases, err := new(assess.Engine).Cases(context.Background(), doc, doc.Plans()[0].ID, surge)
	if err != nil {
		t.Fatal(err)
	}
	return result, cases[0]
}

// A sheet that says nothing of its loads has the worse of two sheets, one that says
// open of each and one that says filtered, each to the bit; those two are one circuit.
func TestUnstatedLoadsCountByTheWorse(t *testing.T) {
	const open, filter = 0, 1
	for _, doc := range filetest.Demos(t) {
		doc = unstated(t, doc)
		title := doc.Info().Title
		result, both := solvedAt(t, doc, ringing())
		var stated [2]assess.Case
		for i, terminals := range []diagram.Terminals{diagram.OpenTerminals, diagram.FilteredTerminals} {
			_, stated[i] = solvedAt(t, stating(t, doc, terminals), ringing())
			if len(stated[i].Taken) > 0 || len(stated[i].Alone()) != 1 {
				t.Errorf("%s, %s: got %d circuits, want one", title, terminals, len(stated[i].Alone()))
			}
			if diff := cmp.Diff(stated[i].Buses, both.Taken[i].Buses, cmpopts.IgnoreFields(analysis.Peak{}, "Filtered")); diff != "" {
				t.Errorf("%s: -stated %s +one of two\n%s", title, terminals, diff)
			}
		}
		var counts [2]int
		for id, peaks := range both.Buses {
			for i, peak := range peaks {
				from := open
				if peak.Filtered {
					from = filter
				}
				counts[from]++
				a, b := stated[open].Buses[id][i], stated[filter].Buses[id][i]
				want := stated[from].Buses[id][i]
				want.Filtered = peak.Filtered
				if peak != want || peak.Volts != max(a.Volts, b.Volts) {
					t.Errorf("%s: %s: got %v, of %v open and %v with filters", title, doc.NameOf(id), peak, a, b)
				}
			}
		}
		if counts[open] == 0 || counts[filter] == 0 {
			t.Errorf("%s: open counts %d times and the filter %d times: that shows nothing", title, counts[open], counts[filter])
		}
		saysWhatCounts(t, doc, result)
		for id, f := range result.Feeders {
			feeder, _ := doc.Feeder(id)
			if bus, ok := result.Buses[feeder.To.Part]; ok && bus.Worst().Known && !feeder.Switch.Open {
				if got, want := f.Samples[len(f.Samples)-1].Volts, bus.Worst().Volts; got != want {
					t.Errorf("%s: %s ends at %g V, and what it leads to has %g", title, doc.NameOf(id), got, want)
				}
			}
		}
	}
}

// saysWhatCounts checks that a level, its working and the assumptions say how the loads
// count of which nothing is said.
func saysWhatCounts(t *testing.T, doc *diagram.Document, result *analysis.Result) {
	t.Helper()
	for id, bus := range assess.ExplainAll(doc, result) {
		for _, level := range bus.Levels {
			if !level.Known || level.Reason != analysis.Solved || level.Verdict == analysis.Unknown {
				continue
			}
			if said := strings.Contains(level.Why, "as input filters, the worse of two"); said != level.Filtered {
				t.Errorf("%s %s: filters count %t, and %q", doc.NameOf(id), level.Mode, level.Filtered, level.Why)
			}
			want := map[bool]string{false: "count as open, the worse", true: "count as input filters, the worse"}[level.Filtered]
			for _, step := range level.Working {
				if step.Label == "loads of which nothing is said" && strings.HasPrefix(step.Text, want) {
					want = ""
				}
			}
			if want != "" {
				t.Errorf("%s %s: the working does not say that loads %s", doc.NameOf(id), level.Mode, want)
			}
		}
	}
	either := 0
	for _, a := range result.Surges[0].Assumptions {
		switch {
		case strings.Contains(a.Text, "shows the worse of the two"):
			either++
		case strings.Contains(a.Text, "open") && !strings.Contains(a.Text, "motor"):
			t.Errorf("%s: told %q beside", doc.Info().Title, a.Text)
		}
	}
	if either != 1 {
		t.Errorf("%s: told %d times that the worse of two counts", doc.Info().Title, either)
	}
}

// Where a surge arrives at many places, a level names that from which the worst comes
// and the way in which the loads count there.
func TestUnstatedLoadsAtManyPlaces(t *testing.T) {
	surge := ringing()
	surge.Places = diagram.EveryLoad
	result, both := solvedAt(t, filetest.Demos(t)[1], surge)
	if len(both.Alone()) != 2*len(both.At) {
		t.Fatalf("got %d circuits at %d places, want two at each", len(both.Alone()), len(both.At))
	}
	for id, bus := range result.Buses {
		for _, level := range bus.Levels {
			one := result.Surges[0].From(level.Origin, level.Filtered)
			peak, ok := one.Worst(id, level.Mode)
			if !ok || level.Known && math.Abs(peak.Volts-level.Volts) > 1e-6 || one.Surge.Part != level.Origin || len(one.Taken) > 0 {
				t.Errorf("%s %s: got %g V from %s, which has %g V there", id, level.Mode, level.Volts, level.Origin, peak.Volts)
			}
		}
	}
}

// Of two circuits of which one moves more where the step is halved, that is told.
func TestHalvingTellsTheWorseOfTwo(t *testing.T) {
	_, both := solvedAt(t, filetest.Demos(t)[1], ringing())
	cases := []assess.Case{both}
	if err := new(assess.Engine).Halve(context.Background(), cases); err != nil {
		t.Fatal(err)
	}
	a, b := cases[0].Taken[0].Halving, cases[0].Taken[1].Halving
	if got := cases[0].Halving; a == nil || b == nil || got.Share != max(a.Share, b.Share) || a.Share == b.Share {
		t.Errorf("got %v of %v and %v", got, a, b)
	}
}
