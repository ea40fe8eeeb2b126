package assess_test

import (
	"context"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

// plain is a result without the functions in it, which compare with nothing: of a
// change that mends, its words.
func plain(result *analysis.Result) string {
	var out strings.Builder
	for _, f := range result.Findings {
		fmt.Fprintln(&out, f.Key(), f.Severity, f.Critical, f.What, f.Why, f.Remedy, f.Records, f.Mend.Kind, f.Mend.Label, f.Mend.IsThere())
	}
	return out.String()
}

// differs returns how two results differ, or nothing.
func differs(want, got *analysis.Result) string {
	options := cmp.Options{cmpopts.IgnoreFields(analysis.Result{}, "Findings", "Aside"), cmpopts.IgnoreFields(analysis.Topology{}, "Findings"), cmpopts.EquateNaNs()}
	return cmp.Diff(want, got, options) + cmp.Diff(plain(want), plain(got)) +
		cmp.Diff(plain(&analysis.Result{Findings: want.Topology.Findings}), plain(&analysis.Result{Findings: got.Topology.Findings}))
}

// edits are what may come between two runs of one engine.
func edits(rng *rand.Rand, doc *diagram.Document, done *[]diagram.Change) map[string]func() {
	edit := func(f func(*diagram.Tx)) {
		if change, err := doc.Edit(func(tx *diagram.Tx) error { f(tx); return nil }); err == nil {
			*done = append(*done, change)
		}
	}
	return map[string]func(){
		"a lead": func() {
			edit(func(tx *diagram.Tx) {
				if all := slices.Collect(tx.Document().Protectors()); len(all) > 0 {
					p := all[rng.IntN(len(all))]
					p.Leads.Phase.Length = rng.Float64()
					tx.SetProtector(p)
				}
			})
		},
		"a name": func() {
			edit(func(tx *diagram.Tx) {
				for _, p := range slices.Collect(tx.Document().Parts()) {
					p.Name = fmt.Sprint("Renamed ", rng.IntN(100))
					tx.SetPart(p)
				}
			})
		},
		"a place": func() { // of a symbol
			edit(func(tx *diagram.Tx) {
				if all := slices.Collect(tx.Document().Parts()); len(all) > 0 {
					p := all[rng.IntN(len(all))]
					p.At = geom.Pt(rng.Float64()*100, rng.Float64()*100)
					tx.SetPart(p)
				}
			})
		},
		"a position": func() { // of the transfer switches
			edit(func(tx *diagram.Tx) {
				for _, p := range slices.Collect(tx.Document().Parts()) {
					if p.Kind == diagram.TransferSwitch {
						p.Transfer.Position = []diagram.Position{diagram.ToNormal, diagram.ToEmergency}[rng.IntN(2)]
						tx.SetPart(p)
					}
				}
			})
		},
		"a switch": func() {
			edit(func(tx *diagram.Tx) {
				if all := slices.Collect(tx.Document().Feeders()); len(all) > 0 {
					f := all[rng.IntN(len(all))]
					f.Switch.Open = !f.Switch.Open
					tx.SetFeeder(f)
				}
			})
		},
		"the codes": func() {
			edit(func(tx *diagram.Tx) {
				info := tx.Document().Info()
				info.Codes.Practice = []diagram.Practice{"", diagram.NECPractice, diagram.IECPractice}[rng.IntN(3)]
				tx.SetInfo(info)
			})
		},
		"anything": func() { *done = append(*done, diagramtest.Shake(rng, doc, 2)) },
		"undo": func() {
			if last := len(*done) - 1; last >= 0 {
				doc.Apply((*done)[last].Inverse())
				*done = (*done)[:last]
			}
		},
		"nothing": func() {}, // but perhaps another plan
	}
}

// An engine that was used before gives the result of one that was not, whatever
// has been done to the sheet since.
func TestReuseChangesNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	reused := 0
	for seed := range uint64(6) {
		rng := diagramtest.Rand(seed)
		doc := diagramtest.Random(rng, 25)
		var engine assess.Engine
		var done []diagram.Change
		var last *analysis.Result
		for range 40 {
			all := edits(rng, doc, &done)
			name := slices.Sorted(maps.Keys(all))[rng.IntN(len(all))]
			all[name]()
			plans := doc.Plans()
			plan := plans[rng.IntN(len(plans))].ID
			got, err := engine.HandRule(context.Background(), doc.Snapshot(), plan)
			if err != nil {
				t.Fatal(err)
			}
			want, _ := assess.Run(context.Background(), doc, plan)
			if diff := differs(want, got); diff != "" {
				t.Fatalf("seed %d, after %s:\n%s", seed, name, diff)
			}
			if last != nil && last.Topology == got.Topology {
				reused++
			}
			last = got
		}
	}
	if reused < 60 {
		t.Errorf("what was traced served again %d times of 240", reused)
	}
}

// A lead alone has nothing traced anew, and an open switch does.
func TestWhatIsTracedAnew(t *testing.T) {
	doc := diagramtest.Building(30)
	var engine assess.Engine
	run := func() *analysis.Topology {
		result, err := engine.HandRule(context.Background(), doc.Snapshot(), diagram.FirstPlan)
		if err != nil {
			t.Fatal(err)
		}
		return result.Topology
	}
	first := run()
	lengthen(t, doc, 2)
	if run() != first {
		t.Error("a lead has the building traced anew")
	}
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		f, _ := tx.Feeder("feeder-1")
		f.Switch.Open = true
		tx.SetFeeder(f)
		return nil
	})
	if err != nil || run() == first {
		t.Errorf("an open switch has nothing traced anew, %v", err)
	}
}

// BenchmarkLeadEdit is what follows each step of a drag that makes a lead longer,
// by the hand rule.
func BenchmarkLeadEdit(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			doc := diagramtest.Building(n)
			var engine assess.Engine
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				lengthen(b, doc, float64(i%100)/100)
				if _, err := engine.HandRule(context.Background(), doc.Snapshot(), diagram.FirstPlan); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// lengthen sets the leads of the first protector.
func lengthen(t testing.TB, doc *diagram.Document, metres float64) {
	t.Helper()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for p := range tx.Document().Protectors() {
			p.Leads.Phase.Length = metres
			tx.SetProtector(p)
			break
		}
	})
}
