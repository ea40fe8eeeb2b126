package drawer

import (
	"fmt"
	"strings"

	"clampline/analysis"
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
			words = append(words, countWord(c[s], analysis.Severity(s)))
		}
	}
	return strings.Join(words, " · ")
}

// countWord is a number with the name of a severity: "1 error", "2 notes".
func countWord(n int, s analysis.Severity) string {
	if n == 1 {
		return "1 " + s.String()
	}
	return fmt.Sprintf("%d %ss", n, s)
}
