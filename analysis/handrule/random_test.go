package handrule_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

const randomDocuments = 300

// randomDocument returns a document of 1 to 60 parts that holds whatever a
// document may, and plain protectors besides, so that much is covered.
func randomDocument(seed uint64) (*diagram.Document, *rand.Rand) {
	rng := diagramtest.Rand(seed)
	doc := diagramtest.Random(rng, 1+int(seed)%60)
	for range 3 {
		addProtector(rng, doc)
	}
	return doc, rng
}

// addProtector attaches a protector that says nothing of its system to a
// random bus, and reports whether there is one.
func addProtector(rng *rand.Rand, doc *diagram.Document) bool {
	var hosts []diagram.ID
	for part := range doc.Parts() {
		if part.Kind.TakesProtector() {
			hosts = append(hosts, part.ID)
		}
	}
	if len(hosts) == 0 {
		return false
	}
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		p := diagram.Protector{ID: tx.NewProtectorID(), Plan: diagram.FirstPlan, Bus: hosts[rng.IntN(len(hosts))]}
		p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = rng.Float64(), rng.Float64(), rng.Float64()
		for mode := range p.Modes {
			p.Modes[mode] = diagram.ModeRating{Connected: rng.IntN(4) > 0, Level: 300 + 3000*rng.Float64()}
		}
		tx.SetProtector(p)
		return nil
	})
	return err == nil
}

func solveOf(doc *diagram.Document) *analysis.Result {
	return diagramtest.Must(handrule.Solve(context.Background(), doc, diagram.FirstPlan, analysis.Trace(doc), handrule.DefaultRule()))
}

func TestRandomDocuments(t *testing.T) {
	for seed := range uint64(randomDocuments) {
		doc, _ := randomDocument(seed)
		result := solveOf(doc)
		for part := range doc.Parts() {
			bus, has := result.Buses[part.ID]
			if has != part.Kind.IsJudged() || has && len(bus.Levels) == 0 {
				t.Errorf("seed %d: %s (%s) has %d levels", seed, part.ID, part.Kind, len(bus.Levels))
			}
			if has && !bus.Worst().Judged {
				t.Errorf("seed %d: the worst level of %s is not judged", seed, part.ID)
			}
			for _, l := range bus.Levels {
				checkLevel(t, fmt.Sprintf("seed %d, %s %s", seed, part.ID, l.Mode), l)
			}
		}
		for feeder := range doc.Feeders() {
			checkSamples(t, fmt.Sprintf("seed %d, %s", seed, feeder.ID), result.Feeders[feeder.ID].Samples)
		}
		for _, b := range result.Breaks {
			if !doc.Has(b.ID) {
				t.Errorf("seed %d: break at %q", seed, b.ID)
			}
		}
		again := solveOf(doc.Snapshot())
		for name, diff := range map[string]string{
			"buses": cmp.Diff(result.Buses, again.Buses), "feeders": cmp.Diff(result.Feeders, again.Feeders),
			"breaks": cmp.Diff(result.Breaks, again.Breaks), "findings": cmp.Diff(result.Findings, again.Findings, cmp.Comparer(func(a, b analysis.Mend) bool { return a.Label == b.Label })),
		} {
			if diff != "" {
				t.Errorf("seed %d: %s of two runs differ: %s", seed, name, diff)
			}
		}
	}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func checkLevel(t *testing.T, at string, l analysis.Level) {
	t.Helper()
	if !finite(l.Volts) || !finite(l.Withstand) || l.Volts < 0 || l.Withstand < 0 || !l.Known && l.Volts != 0 {
		t.Errorf("%s: %g V of %g V", at, l.Volts, l.Withstand)
	}
	if !l.Known && l.Verdict != analysis.Unreached && l.Verdict != analysis.Unknown {
		t.Errorf("%s: nothing is known and it is %s", at, l.Verdict)
	}
	if l.Known && l.Verdict == analysis.Unreached {
		t.Errorf("%s: %g V and it is %s", at, l.Volts, l.Verdict)
	}
	if l.Reason == "" || l.Why == "" {
		t.Errorf("%s: reason %q, %q", at, l.Reason, l.Why)
	}
}

func checkSamples(t *testing.T, at string, samples []analysis.Sample) {
	t.Helper()
	if len(samples) < 2 || samples[0].Share != 0 || samples[len(samples)-1].Share != 1 {
		t.Errorf("%s: samples %v", at, samples)
		return
	}
	for i, s := range samples {
		if !finite(s.Volts) || i > 0 && s.Share <= samples[i-1].Share {
			t.Errorf("%s: sample %d is %v after %v", at, i, s, samples[max(0, i-1)])
		}
		if !s.Known && s.Verdict != analysis.Unreached && s.Verdict != analysis.Unknown {
			t.Errorf("%s: sample %v", at, s)
		}
	}
}

// Explain says what Solve says, with a working whose figures are finite and
// which ends in the same voltage.
func TestExplainAgreesWithSolve(t *testing.T) {
	for seed := range uint64(randomDocuments) {
		doc, _ := randomDocument(seed)
		result := solveOf(doc)
		explained := handrule.Explain(doc, diagram.FirstPlan, result.Topology, handrule.DefaultRule())
		for id, bus := range explained {
			for i := range bus.Levels {
				checkWorking(t, fmt.Sprintf("seed %d, %s %s", seed, id, bus.Levels[i].Mode), bus.Levels[i])
				bus.Levels[i].Working = nil
			}
		}
		if diff := cmp.Diff(result.Buses, explained); diff != "" {
			t.Fatalf("seed %d: -solve +explain:\n%s", seed, diff)
		}
	}
}

func checkWorking(t *testing.T, at string, l analysis.Level) {
	t.Helper()
	found := !l.Known
	for _, step := range l.Working {
		found = found || step.Unit == "V" && step.Result == l.Volts
		if !finite(step.Result) || step.Label == "" || step.Unit == "" && step.Text == "" {
			t.Errorf("%s: step %+v", at, step)
		}
	}
	if !found || len(l.Working) == 0 {
		t.Errorf("%s: no step gives %g V: %+v", at, l.Volts, l.Working)
	}
}

func TestExplainOfOneBus(t *testing.T) {
	doc := diagramtest.Building(60)
	topology := analysis.Trace(doc)
	all := handrule.Explain(doc, diagram.FirstPlan, topology, handrule.DefaultRule())
	one := handrule.Explain(doc, diagram.FirstPlan, topology, handrule.DefaultRule(), "part-2")
	if diff := cmp.Diff(map[diagram.ID]analysis.BusResult{"part-2": all["part-2"]}, one); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// rises compares two results of the same building: how many levels known
// before are higher afterwards or no longer known, of how many.
func rises(before, after *analysis.Result) (bad []string, known int) {
	for id, bus := range before.Buses {
		for _, l := range bus.Levels {
			if !l.Known {
				continue
			}
			known++
			for _, now := range after.Buses[id].Levels {
				// A part in 1e9: the two sum in another order.
				if now.Mode == l.Mode && (!now.Known || now.Volts > l.Volts*(1+1e-9)) {
					bad = append(bad, fmt.Sprintf("%s %s: %v %g V, then %v %g V", id, l.Mode, l.Known, l.Volts, now.Known, now.Volts))
				}
			}
		}
	}
	return bad, known
}

// enoughLevels is how many known levels a comparison over all the random
// documents must see; each sees nearly three thousand.
const enoughLevels = 2000

// compareRandom changes random documents and reports levels that rise from
// the lower to the higher of the two.
func compareRandom(t *testing.T, change func(*rand.Rand, *diagram.Document) bool, downward bool) {
	t.Helper()
	total := 0
	for seed := range uint64(randomDocuments) {
		doc, rng := randomDocument(seed)
		before := solveOf(doc)
		if !change(rng, doc) {
			continue
		}
		after := solveOf(doc)
		if !downward {
			before, after = after, before
		}
		bad, known := rises(before, after)
		total += known
		for _, text := range bad {
			t.Errorf("seed %d: %s", seed, text)
		}
	}
	if total < enoughLevels {
		t.Errorf("only %d levels were compared", total)
	}
}

func TestOneMoreProtectorNeverHarms(t *testing.T) { compareRandom(t, addProtector, true) }

func TestShorterLeadsNeverHarm(t *testing.T) {
	compareRandom(t, func(rng *rand.Rand, doc *diagram.Document) bool {
		_, err := doc.Edit(func(tx *diagram.Tx) error {
			for p := range doc.Snapshot().Protectors() {
				for _, lead := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
					lead.Length = max(min(lead.Length, 1e-6), lead.Length*rng.Float64())
				}
				tx.SetProtector(p)
			}
			return nil
		})
		return err == nil
	}, true)
}

func TestLongerFeedersNeverHelp(t *testing.T) {
	compareRandom(t, func(rng *rand.Rand, doc *diagram.Document) bool {
		_, err := doc.Edit(func(tx *diagram.Tx) error {
			for f := range doc.Snapshot().Feeders() {
				if rng.IntN(2) == 0 {
					f.Length = min(1e5, f.Length+20*rng.Float64())
					tx.SetFeeder(f)
				}
			}
			return nil
		})
		return err == nil
	}, false)
}
