package main

import (
	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// checkJSON is what check --json prints.
type checkJSON struct {
	Plan     string        `json:"plan"`
	Basis    string        `json:"basis"`
	Errors   int           `json:"errors"`
	Warnings int           `json:"warnings"`
	Notes    int           `json:"notes"`
	Findings []findingJSON `json:"findings"`
}

type findingJSON struct {
	Severity string       `json:"severity"`
	Subject  string       `json:"subject"`
	Critical bool         `json:"critical"`
	Records  []recordJSON `json:"records"`
	What     string       `json:"what"`
	Why      string       `json:"why"`
	Remedy   string       `json:"remedy"`
	Source   string       `json:"source"`
	Working  []stepJSON   `json:"working"`
	Mend     string       `json:"mend"`
}

type recordJSON struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

type stepJSON struct {
	Label   string   `json:"label"`
	Formula string   `json:"formula"`
	Numbers string   `json:"numbers"`
	Result  *float64 `json:"result"`
	Unit    string   `json:"unit"`
	Text    string   `json:"text"`
	Source  string   `json:"source"`
}

// findingsOf returns the printed findings of a sheet, and the counts of all.
func findingsOf(s sheet, printed []analysis.Finding) checkJSON {
	counts := severityCounts(s.result.Findings)
	out := checkJSON{
		Plan: s.doc.NameOf(s.plan.ID), Basis: string(s.result.Basis),
		Errors: counts[analysis.Error], Warnings: counts[analysis.Warning], Notes: counts[analysis.Remark],
		Findings: []findingJSON{},
	}
	for _, f := range printed {
		out.Findings = append(out.Findings, findingOf(s, f))
	}
	return out
}

func findingOf(s sheet, f analysis.Finding) findingJSON {
	words := func(text string) string { return unit.Words(text, s.convention) }
	out := findingJSON{
		Severity: f.Severity.String(), Subject: f.Subject, Critical: f.Critical, Records: recordsOf(s.doc, f.Records),
		What: words(f.What), Why: words(f.Why), Remedy: words(f.Remedy), Source: unit.Terms(f.Source, s.convention),
		Working: []stepJSON{}, Mend: words(f.Mend.Label),
	}
	for _, step := range f.Working {
		out.Working = append(out.Working, stepOf(step, s.convention))
	}
	return out
}

func recordsOf(doc *diagram.Document, ids []diagram.ID) []recordJSON {
	out := []recordJSON{}
	for _, id := range ids {
		out = append(out, recordJSON{string(id), doc.NameOf(id)})
	}
	return out
}

func stepOf(step analysis.Step, c unit.Convention) stepJSON {
	out := stepJSON{
		Label: unit.Words(step.Label, c), Formula: unit.Terms(step.Formula, c), Numbers: unit.Terms(step.Numbers, c),
		Unit: step.Unit, Text: unit.Words(step.Text, c), Source: unit.Terms(step.Source, c),
	}
	if step.Unit != "" {
		result := sixDigits(step.Result)
		out.Result = &result
	}
	return out
}
