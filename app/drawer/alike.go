package drawer

import "clampline/analysis"

// alike returns the findings of a list that are about the same as one and
// mended by the same kind of change, that one included.
func alike(findings []analysis.Finding, to analysis.Finding) []analysis.Finding {
	if !to.Mend.IsThere() {
		return nil
	}
	var out []analysis.Finding
	for _, other := range findings {
		if other.Mend.IsThere() && other.Subject == to.Subject && other.Mend.Kind == to.Mend.Kind {
			out = append(out, other)
		}
	}
	return out
}
