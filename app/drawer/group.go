package drawer

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Grouping is by what findings stand together.
type Grouping = analysis.Grouping

// The groupings.
const (
	Ungrouped = analysis.Ungrouped
	BySubject = analysis.BySubject
	ByPart    = analysis.ByPart
	ByPlan    = analysis.ByPlan
)

// Groupings returns every grouping.
func Groupings() []Grouping { return analysis.Groupings() }

// line is one line of the list: a finding, or the heading of a group.
type line struct {
	finding int    // which of those listed; -1 for a heading
	group   string // that it heads or is in; empty where nothing is grouped
	count   int    // of findings under a heading
}

func (l line) isHeading() bool { return l.finding < 0 }

// arrange returns the lines of a list. Groups stand in the order of their first
// findings, so that what is worst stands first; of a folded group there is only
// the heading.
func arrange(findings []analysis.Finding, by Grouping, folded map[string]bool, doc *diagram.Document) []line {
	out := make([]line, 0, len(findings))
	if by == Ungrouped {
		for i := range findings {
			out = append(out, line{finding: i})
		}
		return out
	}
	for _, group := range analysis.Grouped(findings, by, doc) {
		out = append(out, line{finding: -1, group: group.Name, count: len(group.Members)})
		if folded[group.Name] {
			continue
		}
		for _, i := range group.Members {
			out = append(out, line{finding: i, group: group.Name})
		}
	}
	return out
}

// headingOf returns a group as it stands above its findings: a subject in the words
// of the convention, any other name as it is.
func headingOf(group string, c unit.Convention) string {
	if slices.Contains(analysis.Subjects(), group) {
		return unit.Terms(group, c)
	}
	return group
}
