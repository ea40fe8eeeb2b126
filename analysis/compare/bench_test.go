package compare_test

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// twice is a building of so many parts with its protectors in two plans.
func twice(b *testing.B, parts int) *diagram.Document {
	doc := diagramtest.Building(parts)
	diagramtest.Edit(b, doc, func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: "second", Name: "Second", Order: 2})
		for p := range doc.Snapshot().ProtectorsOf(diagram.FirstPlan) {
			p.ID, p.Plan = "copy-"+p.ID, "second"
			tx.SetProtector(p)
		}
	})
	return doc
}

// What is asked for one protector of a building of 1 000 parts, by the hand rule: it is told at
// each change of the selection.
func BenchmarkBuysOne(b *testing.B) {
	doc, engine := twice(b, 1000), &assess.Engine{}
	p := compare.Purchase{Document: doc, Plan: "second", Basis: analysis.HandRule}
	for one := range doc.ProtectorsOf("second") {
		p.Only = []diagram.ID{one.ID}
		break
	}
	for b.Loop() {
		if _, err := compare.Buys(context.Background(), engine, p); err != nil {
			b.Fatal(err)
		}
	}
}

// What a building of 1 000 parts costs: it stands in the details where nothing is selected.
func BenchmarkCost(b *testing.B) {
	doc := twice(b, 1000)
	for b.Loop() {
		compare.CostOf(doc, "second")
	}
}

// The table of two plans, both at hand.
func BenchmarkTable(b *testing.B) {
	doc := twice(b, 1000)
	in, err := compare.Solve(context.Background(), &assess.Engine{}, compare.Input{Document: doc, Plans: compare.All(doc), Basis: analysis.HandRule})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		in.Table()
	}
}
