package analysis

import (
	"cmp"
	"slices"
	"strings"

	"clampline/diagram"
)

// Finding is something wrong or doubtful, with the way to mend it.
type Finding struct {
	Severity Severity
	Subject  string       // one or two words by which findings are grouped: "supply", "voltage", "cover"
	Records  []diagram.ID // the parts, feeders and protectors concerned, the main one first
	What     string       // one sentence that names them
	Why      string
	Remedy   string
	Source   string // standard with edition and clause, or "common practice, no source"; empty for a plain fact of the drawing
	Working  Working
}

// SubjectCover is the subject of the findings that repeat a verdict.
const SubjectCover = "cover"

// SubjectSurge is the subject of the findings on surge cases that are not
// solved.
const SubjectSurge = "surge case"

// SortFindings orders findings by severity, the worst first, then by subject
// and by the records concerned, so that equal documents list alike.
func SortFindings(findings []Finding) {
	slices.SortStableFunc(findings, func(a, b Finding) int {
		return cmp.Or(
			-cmp.Compare(a.Severity, b.Severity),
			strings.Compare(a.Subject, b.Subject),
			slices.CompareFunc(a.Records, b.Records, diagram.CompareID),
			strings.Compare(a.What, b.What),
		)
	})
}
