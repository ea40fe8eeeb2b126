package analysis_test

import (
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// asideSheet is a board with a protector, and two plans.
func asideSheet(t *testing.T, asides ...diagram.Aside) *diagram.Document {
	t.Helper()
	return newSheet(t).boards("board").edit(func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: "cheaper", Name: "Cheaper"})
		tx.SetProtector(diagram.Protector{ID: "spd", Plan: diagram.FirstPlan, Bus: "board"})
		for i, a := range asides {
			a.ID = diagram.ID([]string{"aside-1", "aside-2", "aside-3"}[i])
			tx.SetAside(a)
		}
	}).doc
}

// longLeads is a finding that is made for each mode of a protector.
func longLeads(mode string, severity analysis.Severity) analysis.Finding {
	return analysis.Finding{Rule: "leads.long", Detail: mode, Severity: severity, Records: []diagram.ID{"spd", "board"}, What: "long in " + mode}
}

func told(findings []analysis.Finding) []string {
	var out []string
	for _, f := range findings {
		out = append(out, f.What)
	}
	return out
}

// What an inspector has accepted on one protector in one mode is that and no more:
// its other modes, other rules, the same on another plan and what has become worse
// are asked about as before, in the order in which they were.
func TestPutAside(t *testing.T) {
	in := func(plan diagram.ID, f analysis.Finding) diagram.Aside {
		a := analysis.AsideOf(f, plan)
		a.Reason, a.By = "the way is blocked by a beam", "A. Weir"
		return a
	}
	const lineEarth = "L-G"
	accepted := longLeads("L-N", analysis.Warning)
	other := analysis.Finding{Rule: "breaker.missing", Severity: analysis.Warning, Records: []diagram.ID{"spd"}, What: "no breaker"}
	onBoard := analysis.Finding{Rule: "leads.long", Detail: "L-N", Severity: analysis.Warning, Records: []diagram.ID{"board"}, What: "of the board"}
	sheetWide := analysis.Finding{Rule: "supply.none", Severity: analysis.Error, What: "no supply"}
	for _, row := range []struct {
		name       string
		asides     []diagram.Aside
		plan       diagram.ID
		findings   []analysis.Finding
		open, away []string
	}{
		{
			"nothing set aside", nil, diagram.FirstPlan,
			[]analysis.Finding{accepted, other}, []string{"long in L-N", "no breaker"}, nil,
		},
		{
			"one mode of two, and none of the rest", []diagram.Aside{in(diagram.FirstPlan, accepted)}, diagram.FirstPlan,
			[]analysis.Finding{sheetWide, longLeads(lineEarth, analysis.Warning), accepted, other, onBoard},
			[]string{"no supply", "long in L-G", "no breaker", "of the board"}, []string{"long in L-N"},
		},
		{
			"accepted on the other plan only", []diagram.Aside{in("cheaper", accepted)}, diagram.FirstPlan,
			[]analysis.Finding{accepted}, []string{"long in L-N"}, nil,
		},
		{
			"accepted as a warning, an error by now", []diagram.Aside{in(diagram.FirstPlan, accepted)}, diagram.FirstPlan,
			[]analysis.Finding{longLeads("L-N", analysis.Error)}, []string{"long in L-N"}, nil,
		},
		{
			"accepted as a warning, a remark by now", []diagram.Aside{in(diagram.FirstPlan, accepted)}, diagram.FirstPlan,
			[]analysis.Finding{longLeads("L-N", analysis.Remark)}, nil, []string{"long in L-N"},
		},
		{
			"one about no record, and one about a record", []diagram.Aside{in(diagram.FirstPlan, sheetWide), in(diagram.FirstPlan, other)}, diagram.FirstPlan,
			[]analysis.Finding{sheetWide, accepted, other}, []string{"long in L-N"}, []string{"no supply", "no breaker"},
		},
		{
			"accepted, and mended since", []diagram.Aside{in(diagram.FirstPlan, accepted)}, diagram.FirstPlan,
			[]analysis.Finding{other}, []string{"no breaker"}, nil,
		},
	} {
		result := &analysis.Result{Plan: row.plan, Findings: row.findings}
		result.PutAside(asideSheet(t, row.asides...))
		var away []string
		for _, a := range result.Aside {
			away = append(away, a.What)
			if a.By.Reason != "the way is blocked by a beam" || a.By.By != "A. Weir" || a.By.Rule != a.Rule {
				t.Errorf("%s: %q is set aside by %+v", row.name, a.What, a.By)
			}
		}
		if open := told(result.Findings); !slices.Equal(open, row.open) || !slices.Equal(away, row.away) {
			t.Errorf("%s: open %q and aside %q, want %q and %q", row.name, open, away, row.open, row.away)
		}
	}
}

// The record of a finding that is set aside is about the main record of it, and says
// how grave it was in the word that the lists have.
func TestAsideOf(t *testing.T) {
	got := analysis.AsideOf(longLeads("L-N", analysis.Warning), "cheaper")
	if want := (diagram.Aside{Plan: "cheaper", Rule: "leads.long", About: "spd", Detail: "L-N", Severity: "warning"}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// In a list of what was set aside the reason stands first, then who and when as far
// as it is told; nothing typed there acts on a terminal.
func TestSaid(t *testing.T) {
	for want, a := range map[string]diagram.Aside{
		"blocked by a beam (A. Weir, 2026-03-02)": {Reason: "blocked by a beam", By: "A. Weir", Day: "2026-03-02"},
		"blocked by a beam (A. Weir)":             {Reason: "blocked by a beam", By: "A. Weir"},
		"blocked by a beam (2026-03-02)":          {Reason: "blocked by a beam", Day: "2026-03-02"},
		"blocked by a beam":                       {Reason: "blocked by a beam"},
		`red \x1b[31m`:                            {Reason: "red \x1b[31m"},
		`fine (\x1b[31m)`:                         {Reason: "fine", By: "\x1b[31m"},
	} {
		if got := analysis.Said(a); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
