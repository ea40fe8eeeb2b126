package handrule_test

import (
	"context"
	"fmt"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

func BenchmarkSolve(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		doc := diagramtest.Building(n)
		topology := analysis.Trace(doc)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				diagramtest.Must(handrule.Solve(context.Background(), doc, diagram.FirstPlan, topology, handrule.DefaultRule()))
			}
		})
	}
}

func BenchmarkExplain(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		doc := diagramtest.Building(n)
		topology := analysis.Trace(doc)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				handrule.Explain(doc, diagram.FirstPlan, topology, handrule.DefaultRule())
			}
		})
	}
}
