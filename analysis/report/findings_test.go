package report

import (
	"encoding/csv"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
	"clampline/diagram/unit"
)

// setAside returns a work in which the first finding is set aside, and that finding.
func setAside(t *testing.T, doc *diagram.Document) (*Work, analysis.Finding) {
	t.Helper()
	first := workOf(t, doc, unit.NorthAmerican).Result.Findings[0]
	doc = doc.Snapshot()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		a := analysis.AsideOf(first, doc.Plans()[1].ID)
		a.ID, a.Reason, a.By, a.Day = "aside-1", "The owner keeps a spare", "R. Tern", "2026-11-01"
		tx.SetAside(a)
	})
	return workOf(t, doc, unit.NorthAmerican), first
}

// The table has each finding that counts and then each that is set aside, with who and
// why, its subjects together.
func TestFindingsAsCSV(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		w, first := setAside(t, doc)
		lines, err := csv.NewReader(strings.NewReader(string(written(t, "findings", w, CSV)))).ReadAll()
		if err != nil || len(lines) != 2+len(w.Result.Findings) {
			t.Fatalf("%d lines of %d findings and one set aside: %v", len(lines), len(w.Result.Findings), err)
		}
		at := map[string]int{}
		for i, name := range lines[0] {
			at[name] = i
		}
		seen, before := map[string]bool{}, ""
		for _, line := range lines[1 : len(lines)-1] {
			subject := line[at["Subject"]]
			if subject != before && seen[subject] {
				t.Errorf("%s: %q stands in two places", doc.Info().Title, subject)
			}
			seen[subject], before = true, subject
			if line[at["Set aside because"]] != "" {
				t.Errorf("%s: %q counts, and is set aside", doc.Info().Title, line[at["Finding"]])
			}
		}
		last := lines[len(lines)-1]
		if last[at["Rule"]] != first.Rule || last[at["Set aside because"]] != "The owner keeps a spare" || last[at["Set aside by"]] != "R. Tern" || last[at["Set aside on"]] != "2026-11-01" {
			t.Errorf("%s: got %q", doc.Info().Title, last)
		}
	}
}

// The pages have each finding with why and what to do, the one that is set aside apart
// behind them, and how the voltage of each place came about with every figure of its
// working.
func TestFindingsAsPDF(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		w, first := setAside(t, doc)
		text := pdfText(t, written(t, "findings", w, PDF))
		open, rest, apart := strings.Cut(text, " Set aside These findings")
		if !apart {
			t.Fatalf("%s: what is set aside does not stand apart", doc.Info().Title)
		}
		for _, f := range w.Result.Findings {
			says(t, doc.Info().Title, open, unit.Words(f.What, w.Convention), unit.Words(f.Remedy, w.Convention)[1:])
		}
		says(t, doc.Info().Title, rest, unit.Words(first.What, w.Convention), "The owner keeps a spare", "R. Tern", "How each voltage came about")
		for id, bus := range assess.ExplainAll(doc, w.Result) {
			says(t, doc.Info().Title, rest, doc.NameOf(id)+": "+unit.Words(analysis.VerdictText(bus.Worst()), w.Convention))
			for _, s := range bus.Worst().Working {
				says(t, doc.Info().Title, rest, unit.Terms(s.Numbers, w.Convention))
			}
		}
	}
}
