package assess_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/fault"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// Whatever a number of a sheet is set to, the sheet refuses it, with a remedy,
// or everything that is found of the sheet is an ordinary number. The soak does
// the same for longer, and with the transient.
func TestNoInfinities(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	tried, taken := 0, 0
	for seed := range uint64(3) {
		doc := diagramtest.Random(diagramtest.Rand(seed), 4)
		for _, n := range diagramtest.Numbers(doc) {
			for _, to := range diagramtest.Extremes() {
				tried++
				changed, err := n.Set(doc, to)
				if err != nil {
					checkRemedy(t, err)
					continue
				}
				taken++
				if found := absurdOf(changed); found != "" {
					t.Errorf("seed %d, %s%s set to %g: %s", seed, n.ID, n.Path, to, found)
				}
			}
		}
	}
	if tried < 100 || taken < tried/20 || taken > tried*19/20 {
		t.Errorf("%d values were tried and %d taken: the test shows too little", tried, taken)
	}
}

func checkRemedy(t *testing.T, err error) {
	t.Helper()
	var invalid *diagram.InvalidError
	if !errors.As(err, &invalid) || invalid.Problems[0].Field == "" || invalid.Problems[0].Remedy == "" {
		t.Errorf("got %v, want an error with place and remedy", err)
	}
}

// absurdOf judges every plan of a sheet and returns what is no ordinary number,
// or nothing.
func absurdOf(doc *diagram.Document) string {
	for _, plan := range doc.Plans() {
		result, err := assess.Run(context.Background(), doc, plan.ID)
		if err != nil {
			return err.Error()
		}
		if found := absurdIn(doc, result); found != "" {
			return found
		}
	}
	return ""
}

// absurdIn looks through a result, its texts and its workings.
func absurdIn(doc *diagram.Document, result *analysis.Result) string {
	if found := diagramtest.Absurd(result); found != "" {
		return found
	}
	for id := range result.Buses {
		if explained, ok := assess.Explain(doc, result, id); ok {
			if found := diagramtest.Absurd(explained) + diagramtest.AbsurdText(fmt.Sprintf("%+v", explained)); found != "" {
				return "explained: " + found
			}
		}
	}
	for at := range result.Faults {
		if explained, ok := fault.Explain(doc, result.Topology, at); ok {
			if found := diagramtest.Absurd(explained) + diagramtest.AbsurdText(fmt.Sprintf("%+v", explained)); found != "" {
				return "fault explained: " + found
			}
		}
	}
	for _, f := range result.Findings {
		if found := diagramtest.AbsurdText(f.What + f.Why + f.Remedy + fmt.Sprintf("%+v", f.Working)); found != "" {
			return "finding: " + found
		}
	}
	return ""
}
