package drawer

import (
	"strings"

	"clampline/analysis"
	"clampline/diagram/unit"
)

// severities is how many severities there are; a severity is an index below it.
const severities = int(analysis.Error) + 1

// Counts is how many findings there are of each severity.
type Counts [severities]int

// Count counts findings.
func Count(findings []analysis.Finding) Counts {
	var out Counts
	for _, f := range findings {
		out[f.Severity]++
	}
	return out
}

// String returns the counts in words, the worst first, without those that are
// zero: "2 errors · 1 note". It is empty where all are.
func (c Counts) String() string {
	var words []string
	for s := severities - 1; s >= 0; s-- {
		if c[s] > 0 {
			words = append(words, unit.CountOf(c[s], analysis.Severity(s).String()))
		}
	}
	return strings.Join(words, " · ")
}
