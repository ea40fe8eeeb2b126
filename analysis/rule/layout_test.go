package rule_test

import (
	"context"
	"fmt"
	"testing"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// Whatever a document holds, the rules take it: loops, parts fed by nothing,
// sources that meet, figures at their limits. What a mend does is valid.
func TestRandomSheets(t *testing.T) {
	mended := 0
	for seed := range uint64(40) {
		rng := diagramtest.Rand(seed)
		doc := diagramtest.Random(rng, 30)
		s := &sketch{t, doc}
		for i, practice := range []diagram.Practice{diagram.NECPractice, diagram.IECPractice} {
			s.edit(func(tx *diagram.Tx) { shakeUses(tx, int(seed)+i) }).codes(diagram.Codes{Practice: practice})
			in := rule.Input{Document: doc, Plan: diagram.FirstPlan, Topology: analysis.Trace(doc)}
			if _, ok := doc.Plan(diagram.FirstPlan); !ok {
				t.Fatal("the first plan is gone")
			}
			for _, f := range diagramtest.Must(rule.Check(context.Background(), in)) {
				if f.What == "" || f.Why == "" || f.Remedy == "" || len(f.Records) == 0 {
					t.Errorf("seed %d: an unfinished finding: %+v", seed, f)
				}
				if f.Mend.IsThere() {
					s.apply(f)
					mended++
				}
			}
		}
	}
	if mended == 0 {
		t.Error("nothing was mended: the test sees too little")
	}
}

// shakeUses gives parts uses and exposures in turn.
func shakeUses(tx *diagram.Tx, turn int) {
	uses, lightning, occupancies := diagram.Uses(), diagram.LightningSystems(), diagram.Occupancies()
	for p := range tx.Document().Parts() {
		turn++
		switch {
		case p.Kind.IsJudged():
			p.Use = uses[turn%len(uses)]
			p.Board.Structure = turn%5 == 0
		case p.Kind == diagram.Supply:
			p.Exposure = diagram.Exposure{Lightning: lightning[turn%len(lightning)], Occupancy: occupancies[turn%len(occupancies)]}
		}
		tx.SetPart(p)
	}
}

// series is a supply and n panels one behind the other.
func series(n int, use diagram.Use) *diagram.Document {
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "p-0", Kind: diagram.Supply, System: wyeOf480})
		for i := 1; i <= n; i++ {
			id := diagram.ID(fmt.Sprintf("p-%d", i))
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel, Use: use})
			above := diagram.ID(fmt.Sprintf("p-%d", i-1))
			tx.SetFeeder(diagram.Feeder{ID: "f-" + id, From: diagram.End{Part: above}, To: diagram.End{Part: id}, Length: 3})
		}
		return nil
	})
	if err != nil {
		panic(err)
	}
	return doc
}

// The rules on parts alone: no protector stands in the plan.
func BenchmarkPartRules(b *testing.B) {
	building := diagramtest.Building(10_000)
	if _, err := building.Edit(func(tx *diagram.Tx) error { shakeUses(tx, 0); return nil }); err != nil {
		b.Fatal(err)
	}
	for _, test := range []struct {
		name string
		doc  *diagram.Document
	}{
		{"building", building},
		{"series", series(10_000, diagram.CriticalPowerUse)},
		{"series of flats", series(10_000, diagram.DwellingUnitUse)},
	} {
		b.Run(test.name, func(b *testing.B) {
			in := rule.Input{Document: test.doc, Plan: "none", Topology: analysis.Trace(test.doc)}
			found := 0
			for b.Loop() {
				found = len(diagramtest.Must(rule.Check(context.Background(), in)))
			}
			b.ReportMetric(float64(found), "findings")
		})
	}
}
