package assess_test

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram/file/filetest"
)

// What is coarse has the same voltages to the bit, and of each feeder the two ends.
func TestCoarseIsTheSameButInsideFeeders(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	for _, doc := range filetest.Demos(t) {
		var full, coarse assess.Engine
		coarse.Coarse = true
		want, err := full.Transient(context.Background(), doc, doc.Plans()[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		got, err := coarse.Transient(context.Background(), doc, doc.Plans()[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		inside := 0
		for id, f := range want.Feeders {
			inside += len(f.Samples) - 2
			f.Samples = []analysis.Sample{f.Samples[0], f.Samples[len(f.Samples)-1]}
			want.Feeders[id] = f
		}
		if inside == 0 {
			t.Errorf("%s: nothing inside feeders that could be left out", doc.Info().Title)
		}
		if diff := cmp.Diff(compared(want), compared(got)); diff != "" {
			t.Errorf("%s: -full, by its ends +coarse\n%s", doc.Info().Title, diff)
		}
	}
}

// compared is a result without what cannot be compared, the findings in words.
func compared(r *analysis.Result) []any {
	var words []string
	for _, f := range r.Findings {
		words = append(words, f.Key().String(), f.What, f.Why, f.Remedy)
	}
	return []any{r.Buses, r.Feeders, r.Surges, words}
}
