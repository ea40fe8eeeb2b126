package analysis

import (
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// SetAside is a finding that a person has set aside, with who and why.
type SetAside struct {
	Finding
	By diagram.Aside
}

// PutAside takes the findings out of a result that are set aside in its plan. One
// that has become graver since stays.
func (r *Result) PutAside(doc *diagram.Document) {
	known := map[Key]diagram.Aside{}
	for a := range doc.Asides() {
		if a.Plan == r.Plan {
			known[Key{a.Rule, a.About, a.Detail}] = a
		}
	}
	if len(known) == 0 {
		return
	}
	var open []Finding
	for _, f := range r.Findings {
		a, ok := known[f.Key()]
		if was, _ := SeverityOf(a.Severity); ok && f.Severity <= was {
			r.Aside = append(r.Aside, SetAside{f, a})
			continue
		}
		open = append(open, f)
	}
	r.Findings = open
}

// AsideOf returns what sets a finding aside in a plan, but for who, when and why.
func AsideOf(f Finding, plan diagram.ID) diagram.Aside {
	key := f.Key()
	return diagram.Aside{Plan: plan, Rule: key.Rule, About: key.Record, Detail: key.Detail, Severity: f.Severity.String()}
}

// Said says in a line why a finding was set aside, by whom and when.
func Said(a diagram.Aside) string {
	who := strings.Join(slices.DeleteFunc([]string{a.By, a.Day}, func(s string) bool { return s == "" }), ", ")
	if who == "" {
		return unit.Visible(a.Reason)
	}
	return unit.Visible(a.Reason + " (" + who + ")")
}
