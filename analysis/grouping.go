package analysis

import (
	"slices"

	"clampline/diagram"
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

// Group is findings that stand together.
type Group struct {
	Name    string // a subject is in the words of the analysis
	Members []int  // which of the findings, in their order
}

// Grouped returns the groups in the order of their first findings, so that what is worst
// stands first.
func Grouped(findings []Finding, by Grouping, doc *diagram.Document) []Group {
	var out []Group
	at := map[string]int{}
	for i, finding := range findings {
		name := GroupOf(finding, by, doc)
		if _, known := at[name]; !known {
			at[name], out = len(out), append(out, Group{Name: name})
		}
		group := &out[at[name]]
		group.Members = append(group.Members, i)
	}
	return out
}

// GroupOf returns the name of the group of a finding; empty where nothing is grouped.
func GroupOf(finding Finding, by Grouping, doc *diagram.Document) string {
	switch by {
	case Ungrouped:
		return ""
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

// partOf names the part that a finding is about: its main record, or the part
// that a protector is on.
func partOf(finding Finding, doc *diagram.Document) string {
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
func dependsOnPlan(finding Finding, doc *diagram.Document) bool {
	switch finding.Subject {
	case SubjectCover, SubjectRequired, SubjectRisk:
		return true
	}
	return slices.ContainsFunc(finding.Records, func(id diagram.ID) bool { _, ok := doc.Protector(id); return ok })
}
