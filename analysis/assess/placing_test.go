package assess_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// Where nothing holds a board or load and none stands there, one click places a
// protector; whichever is chosen, what was found is gone or less grave.
func TestPlacesTakeFindingsOnCoverAway(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	docs := map[string]*diagram.Document{}
	for _, doc := range filetest.Demos(t) {
		docs[doc.Info().Title] = doc
	}
	for seed := range uint64(12) {
		docs[string(rune('a'+seed))] = diagramtest.Random(diagramtest.Rand(seed), 4+int(seed))
	}
	mended, chosen, refused := 0, 0, 0
	for name, doc := range docs {
		for _, plan := range doc.Plans() {
			for _, f := range cover(t, doc, plan.ID) {
				if !f.Mend.IsThere() {
					continue
				}
				mended++
				ways := []analysis.Mend{f.Mend}
				for _, c := range f.Mend.Choices(nil) {
					ways = append(ways, c.Mend)
					chosen++
				}
				for _, way := range ways {
					after := doc.Snapshot()
					if _, err := after.Edit(way.Apply); err != nil {
						if !strings.HasPrefix(err.Error(), "nothing is placed on ") { // found out when the change is made, and said
							t.Fatal(err)
						}
						refused++
						continue
					}
					if left := cover(t, after, plan.ID); slices.ContainsFunc(left, func(g analysis.Finding) bool {
						return g.Records[0] == f.Records[0] && g.Severity >= f.Severity
					}) {
						t.Errorf("%s: %s: still there after: %s", name, f.What, way.Label)
					}
				}
			}
		}
	}
	if mended < 10 || chosen < 20 || refused > mended/10 {
		t.Errorf("%d were mended in %d ways, %d not: the sheets show too little", mended, chosen, refused)
	}
	t.Logf("%d mended, %d choices", mended, chosen)
}

func cover(t *testing.T, doc *diagram.Document, plan diagram.ID) []analysis.Finding {
	t.Helper()
	result, err := assess.Run(context.Background(), doc, plan)
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(result.Findings, func(f analysis.Finding) bool { return f.Subject != analysis.SubjectCover })
}
