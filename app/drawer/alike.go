package drawer

import (
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// mendKind is what the change of a finding does, whatever it does it to: its
// label with a sign of omission for each name of the records. So "twist the
// leads of SPD 3" and "twist the leads of SPD 4" are of one kind.
func mendKind(finding analysis.Finding, doc *diagram.Document) string {
	label := finding.Mend.Label
	for _, id := range finding.Records {
		if name := doc.NameOf(id); name != "" {
			label = strings.ReplaceAll(label, name, "…")
		}
	}
	return label
}

// alike returns the findings of a list that are about the same as one and
// mended by the same kind of change, that one included.
func alike(findings []analysis.Finding, to analysis.Finding, doc *diagram.Document) []analysis.Finding {
	if !to.Mend.IsThere() {
		return nil
	}
	var out []analysis.Finding
	kind := mendKind(to, doc)
	for _, other := range findings {
		if other.Mend.IsThere() && other.Subject == to.Subject && mendKind(other, doc) == kind {
			out = append(out, other)
		}
	}
	return out
}
