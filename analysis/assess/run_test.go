package assess_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

func TestRun(t *testing.T) {
	doc := diagramtest.Building(80)
	got, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	want := diagramtest.Must(handrule.Solve(context.Background(), doc, diagram.FirstPlan, analysis.Trace(doc), handrule.DefaultRule()))
	if diff := cmp.Diff(want.Buses, got.Buses); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if len(got.Buses) == 0 || got.Topology == nil || got.Plan != diagram.FirstPlan {
		t.Errorf("got %d buses for plan %q", len(got.Buses), got.Plan)
	}
}

func TestRunErrors(t *testing.T) {
	doc := diagramtest.Building(10)
	if _, err := assess.Run(context.Background(), doc, "plan-9"); err == nil {
		t.Error("got a result for a plan that is not there")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := assess.Run(ctx, doc, diagram.FirstPlan); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want that it was cancelled", err)
	}
}

// endsAfter is a context that ends at the nth question.
type endsAfter struct {
	context.Context
	left int
}

func (c *endsAfter) Err() error {
	c.left--
	if c.left < 0 {
		return context.Canceled
	}
	return nil
}

// The context is asked before, between and after the stages.
func TestRunStopsBetweenStages(t *testing.T) {
	doc := diagramtest.Building(10)
	for questions := range 3 {
		ctx := &endsAfter{context.Background(), questions}
		if result, err := assess.Run(ctx, doc, diagram.FirstPlan); result != nil || !errors.Is(err, context.Canceled) {
			t.Errorf("ended after %d questions: got %v, %v", questions, result, err)
		}
	}
}

// Several runs on one snapshot don't disturb each other.
func TestRunsSideBySide(t *testing.T) {
	doc := diagramtest.Building(200).Snapshot()
	results := make([]*analysis.Result, 4)
	var group sync.WaitGroup
	for i := range results {
		group.Go(func() {
			results[i], _ = assess.Run(context.Background(), doc, diagram.FirstPlan)
		})
	}
	group.Wait()
	for i, result := range results[1:] {
		if diff := cmp.Diff(results[0].Buses, result.Buses); diff != "" {
			t.Errorf("run %d differs: %s", i+1, diff)
		}
	}
}

func BenchmarkRun(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		doc := diagramtest.Building(n).Snapshot()
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := assess.Run(context.Background(), doc, diagram.FirstPlan); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
