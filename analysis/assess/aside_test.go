package assess_test

import (
	"context"
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// Every finding of the demos can be set aside by its key, on either basis, and then
// counts no more; it stays so when the document is otherwise changed, is another
// plan's own, and comes back when it is graver than it was or the record is gone.
func TestSetAside(t *testing.T) {
	doc := filetest.Demos(t)[0]
	plan := doc.Plans()[0].ID
	run := func(transient bool) *analysis.Result {
		t.Helper()
		result, err := assess.Run(context.Background(), doc, plan)
		if transient {
			result, err = new(assess.Engine).Transient(context.Background(), doc, plan, analysis.SurgesOf(doc)[0])
		}
		if err != nil {
			t.Fatal(err)
		}
		return result
	}
	for _, transient := range []bool{false, true} {
		before := run(transient).Findings
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
			for _, f := range before {
				a := analysis.AsideOf(f, plan)
				a.ID, a.Reason = tx.NewAsideID(), "as told on site"
				tx.SetAside(a)
			}
		})
		after := run(transient)
		if len(after.Findings) != 0 || len(after.Aside) != len(before) || len(before) < 5 {
			t.Fatalf("transient %t: %d of %d are left, %d aside", transient, len(after.Findings), len(before), len(after.Aside))
		}
		for i, a := range after.Aside {
			if a.Key() != before[i].Key() || a.By.Reason != "as told on site" {
				t.Errorf("%d: got %s, want %s", i, a.Key(), before[i].Key())
			}
		}
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
			for _, a := range slices.Collect(doc.Asides()) {
				tx.Remove(a.ID)
			}
		})
	}
	grave := run(false).Findings[0]
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		a := analysis.AsideOf(grave, plan)
		a.ID, a.Severity = "aside-1", analysis.Remark.String()
		tx.SetAside(a)
	})
	if grave.Severity == analysis.Remark || len(run(false).Aside) != 0 {
		t.Error("one that is graver than it was when it was set aside does not count")
	}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.Remove(grave.Records[0]) })
	if len(slices.Collect(doc.Asides())) != 0 {
		t.Error("what was said of a record outlives it")
	}
}
