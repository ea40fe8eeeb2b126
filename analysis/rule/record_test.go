package rule

import (
	"regexp"
	"slices"
	"testing"

	"clampline/analysis"
)

// A rule is known by an id that no other one has, is on a subject, and is silenced by
// rules that look at the same.
func TestRulesAreKnown(t *testing.T) {
	seen := map[string]bool{}
	checkRecords(t, seen, siteRules())
	checkRecords(t, seen, nameplateRules())
	checkRecords(t, seen, partRules())
	checkRecords(t, seen, feederFigureRules())
}

func checkRecords[T any](t *testing.T, seen map[string]bool, rules []record[T]) {
	t.Helper()
	whole, own := regexp.MustCompile(`^[a-z]+\.[A-Za-z0-9 -]+$`), map[string]bool{}
	for _, r := range rules {
		if !whole.MatchString(r.id) || seen[r.id] {
			t.Errorf("%q is not whole, or is that of two rules", r.id)
		}
		if !slices.Contains(analysis.Subjects(), r.subject) {
			t.Errorf("%s is on %q, which is no subject", r.id, r.subject)
		}
		seen[r.id], own[r.id] = true, true
	}
	for _, r := range rules {
		for _, id := range r.silencedBy {
			if !own[id] {
				t.Errorf("%s is silenced by %q, which is no rule of the same things", r.id, id)
			}
		}
	}
}
