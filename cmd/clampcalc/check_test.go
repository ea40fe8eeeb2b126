package main

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/unit"
)

// A finding with everything, as JSON: figures in their unit, a step of words
// without one, and the words of the convention.
func TestFindingOfAllParts(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Main"})
	})
	finding := analysis.Finding{
		Rule: "leads.long", Detail: "L-G", Severity: analysis.Warning, Subject: analysis.SubjectLeads, Critical: true, Records: []diagram.ID{"panel-1"},
		What: "Long leads L-G", Why: "they add", Remedy: "shorten them", Source: "a rule",
		Working: analysis.Working{
			{Label: "lead L-G", Formula: "u = L di/dt", Numbers: "0.5 µH · 1 kA/µs", Result: 1000.0 / 3, Unit: "V", Source: "from the sheet"},
			{Label: "outcome", Text: "too long"},
		},
		Mend: analysis.Mend{Label: "shorten the lead", Apply: func(*diagram.Tx) error { return nil }},
	}
	got, err := json.Marshal(table.RecordOf(findingColumns(sheet{doc: doc, convention: unit.IEC}), finding))
	if err != nil {
		t.Fatal(err)
	}
	want := `{"severity":"warning","subject":"leads","rule":"leads.long","key":"leads.long panel-1 L-G","critical":true,"records":[{"id":"panel-1","name":"Main"}],` +
		`"what":"Long leads L-PE","why":"they add","remedy":"shorten them","source":"a rule","working":[` +
		`{"label":"lead L-PE","formula":"u = L di/dt","numbers":"0.5 µH · 1 kA/µs","result":333.333,"unit":"V","text":"","source":"from the sheet"},` +
		`{"label":"outcome","formula":"","numbers":"","result":null,"unit":"","text":"too long","source":""}],"mend":"shorten the lead"}`
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestCountLine(t *testing.T) {
	three := []analysis.Finding{{Severity: analysis.Error}, {Severity: analysis.Warning}, {Severity: analysis.Warning}}
	for _, row := range []struct {
		name    string
		all     []analysis.Finding
		printed int
		want    string
	}{
		{"none", nil, 0, "no findings"},
		{"all", three, 3, "1 error, 2 warnings, 0 notes"},
		{"some", three, 1, "1 error, 2 warnings, 0 notes; 1 of 3 printed"},
	} {
		if got := countLine(row.all, row.printed); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
