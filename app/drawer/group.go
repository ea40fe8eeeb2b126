package drawer

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Grouping is by what findings stand together, in words for a list to pick
// from, which don't change between versions.
type Grouping string

// The groupings.
const (
	Ungrouped Grouping = "Not grouped"
	BySubject Grouping = "By subject"
	ByPart    Grouping = "By part"
	ByPlan    Grouping = "By plan or building"
)

// Groupings returns every grouping.
func Groupings() []Grouping { return []Grouping{Ungrouped, BySubject, ByPart, ByPlan} }

// The groups by plan.
const (
	ofPlan     = "Protectors of this plan"
	ofBuilding = "The building, whatever the plan"
)

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
	names, members := gather(findings, by, doc)
	for _, name := range names {
		out = append(out, line{finding: -1, group: name, count: len(members[name])})
		if folded[name] {
			continue
		}
		for _, i := range members[name] {
			out = append(out, line{finding: i, group: name})
		}
	}
	return out
}

// gather returns the names of the groups and which findings are in each.
func gather(findings []analysis.Finding, by Grouping, doc *diagram.Document) (names []string, members map[string][]int) {
	members = map[string][]int{}
	for i, finding := range findings {
		name := groupOf(finding, by, doc)
		if members[name] == nil {
			names = append(names, name)
		}
		members[name] = append(members[name], i)
	}
	return names, members
}

func groupOf(finding analysis.Finding, by Grouping, doc *diagram.Document) string {
	switch by {
	case BySubject:
		return finding.Subject
	case ByPart:
		return partOf(finding, doc)
	}
	if dependsOnPlan(finding, doc) {
		return ofPlan
	}
	return ofBuilding
}

// headingOf returns a group as it stands above its findings: a subject in the words
// of the convention, any other name as it is.
func headingOf(group string, c unit.Convention) string {
	if slices.Contains(analysis.Subjects(), group) {
		return unit.Terms(group, c)
	}
	return group
}

// partOf names the part that a finding is about: its main record, or the part
// that a protector is on.
func partOf(finding analysis.Finding, doc *diagram.Document) string {
	if len(finding.Records) == 0 {
		return "Sheet"
	}
	id := finding.Records[0]
	if p, ok := doc.Protector(id); ok {
		id = p.Bus
	}
	return doc.NameOf(id)
}

// dependsOnPlan reports whether another plan may have done with a finding: it
// is about a protector, or about what protectors leave.
func dependsOnPlan(finding analysis.Finding, doc *diagram.Document) bool {
	switch finding.Subject {
	case analysis.SubjectCover, analysis.SubjectRequired, analysis.SubjectRisk:
		return true
	}
	return slices.ContainsFunc(finding.Records, func(id diagram.ID) bool { _, ok := doc.Protector(id); return ok })
}
