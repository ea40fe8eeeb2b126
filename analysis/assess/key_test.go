package assess_test

import (
	"context"
	"fmt"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// Every finding of a sheet is known by a key that no other one has.
func TestKeysAreUnique(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	for _, doc := range filetest.Demos(t) {
		checkKeys(t, doc.Info().Title, doc)
	}
	for seed := range uint64(60) {
		checkKeys(t, fmt.Sprintf("seed %d", seed), diagramtest.Random(diagramtest.Rand(seed), 1+int(seed)))
	}
}

func checkKeys(t *testing.T, name string, doc *diagram.Document) {
	t.Helper()
	for _, plan := range doc.Plans() {
		result, err := assess.Run(context.Background(), doc, plan.ID)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		says := map[analysis.Key]string{}
		for _, f := range result.Findings {
			key := f.Key()
			if f.Rule == "" {
				t.Errorf("%s: no rule finds %q", name, f.What)
			}
			if other, double := says[key]; double {
				t.Errorf("%s: %q and %q have one key, %s", name, other, f.What, key)
			}
			says[key] = f.What
		}
	}
}
