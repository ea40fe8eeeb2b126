package rule

import (
	"regexp"
	"testing"

	"clampline/analysis"
)

// sourced are the words that belong to the source of a finding, not to what it
// says.
var sourced = regexp.MustCompile(`from memory|common practice|no source|check your edition`)

// CheckSentences finds words of a source in what findings say, and findings that are
// not known by a key of their own.
func CheckSentences(t *testing.T, findings []analysis.Finding) {
	t.Helper()
	seen := map[analysis.Key]bool{}
	for _, f := range findings {
		if f.Rule == "" || seen[f.Key()] {
			t.Errorf("%q is known by the key %q, which is not whole or that of another one", f.What, f.Key())
		}
		seen[f.Key()] = true
		texts := []string{f.What, f.Why, f.Remedy, f.Mend.Label}
		for _, s := range f.Working {
			texts = append(texts, s.Label, s.Numbers, s.Text)
		}
		for _, text := range texts {
			if sourced.MatchString(text) {
				t.Errorf("%q: the source does not belong there", text)
			}
		}
	}
}
