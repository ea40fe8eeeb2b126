package assess_test

import (
	"context"
	"math"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram/file/filetest"
)

// On every plan and surge case of the demos the energy that is delivered is
// accounted for within 0.5 %, and half the step moves no peak by more than 1 % or
// 5 V, as much as the simulator may differ.
func TestDemosAreExact(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	var engine assess.Engine
	for _, doc := range filetest.Demos(t) {
		for _, plan := range doc.Plans() {
			_, cases, err := engine.Cases(context.Background(), doc, plan.ID, assess.FewSurges(doc)...)
			if err != nil {
				t.Fatal(err)
			}
			if err := engine.Halve(context.Background(), cases); err != nil {
				t.Fatal(err)
			}
			for _, c := range cases {
				name := doc.Info().Title + ", " + plan.Name + ", " + analysis.SurgeName(doc, c.Surge)
				if c.Balance > 0.005 || c.Delivered <= 0 {
					t.Errorf("%s: %.3g %% of %.3g J are not accounted for", name, 100*c.Balance, c.Delivered)
				}
				if h := c.Halving; math.Abs(h.From-h.To) > max(5, 0.01*h.To) {
					t.Errorf("%s: half the step moves a peak by %.3g %%: %+v", name, 100*c.Halving.Share, *c.Halving)
				}
			}
		}
	}
}
