package drawer

import (
	"cmp"
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// Recorded returns the name of the plan that a change of the finding rewrites
// where that records what was found in the building: the first plan, while it
// is the one that is shown, and holds a protector that the finding is about.
func Recorded(finding analysis.Finding, doc *diagram.Document, plan diagram.ID) (string, bool) {
	first := doc.Plans()[0]
	if first.ID != plan || !finding.Mend.IsThere() {
		return "", false
	}
	holds := slices.ContainsFunc(finding.Records, func(id diagram.ID) bool {
		p, ok := doc.Protector(id)
		return ok && p.Plan == plan
	})
	return cmp.Or(first.Name, string(first.ID)), holds
}

// recordNote says what a change of the plan with the name means.
func recordNote(plan string, locked bool) string {
	if locked {
		return fmt.Sprintf("Plan “%s” records what was found and is locked. Duplicate it first, or unlock it (Plan, Unlock plan).", plan)
	}
	return fmt.Sprintf("Changes what plan “%s” records, not the building. To keep what was found, duplicate the plan first.", plan)
}
