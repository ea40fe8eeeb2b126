package drawer

import (
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// filter says which findings are listed. The zero value lists all.
type filter struct {
	hide    [severities]bool
	subject string       // empty for all
	words   []string     // in lower case; a finding must have each
	only    bool         // nothing but what concerns the scope
	aside   bool         // what is set aside, in place of what counts
	scope   []diagram.ID // what is selected
}

// isOn reports whether the filter may leave something out.
func (f *filter) isOn() bool {
	return f.hide != [severities]bool{} || f.subject != "" || len(f.words) > 0 || f.only
}

// of returns the findings that the filter chooses from.
func (f *filter) of(s State) []analysis.Finding {
	if !f.aside {
		return s.Findings
	}
	out := make([]analysis.Finding, len(s.Aside))
	for i, a := range s.Aside {
		out[i] = a.Finding
	}
	return out
}

// keep returns the findings that are listed, in their order.
func (f *filter) keep(s State) []analysis.Finding {
	if !f.isOn() {
		return f.of(s)
	}
	var out []analysis.Finding
	for _, finding := range f.of(s) {
		if f.keeps(finding, s) {
			out = append(out, finding)
		}
	}
	return out
}

func (f *filter) keeps(finding analysis.Finding, s State) bool {
	switch {
	case f.hide[finding.Severity], f.subject != "" && finding.Subject != f.subject:
		return false
	case f.only && !concerns(s.Document, finding, f.scope):
		return false
	}
	return len(f.words) == 0 || hasAll(searched(finding, s), f.words)
}

// concerns reports whether a finding is about one of the records, or about a
// protector on one.
func concerns(doc *diagram.Document, finding analysis.Finding, scope []diagram.ID) bool {
	for _, id := range finding.Records {
		if slices.Contains(scope, id) {
			return true
		}
		if p, ok := doc.Protector(id); ok && slices.Contains(scope, p.Bus) {
			return true
		}
	}
	return false
}

func hasAll(text string, words []string) bool {
	for _, word := range words {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// searched is all that a finding says, as it is searched: in the words of the
// convention, in lower case and with plain spaces.
func searched(finding analysis.Finding, s State) string {
	parts := []string{finding.Subject, finding.What, finding.Why, finding.Remedy, finding.Source, finding.Mend.Label}
	for _, id := range finding.Records {
		parts = append(parts, s.Document.NameOf(id))
	}
	return plain(unit.Words(strings.Join(parts, "\n"), s.Convention))
}

// plain is a text in lower case and with plain spaces.
func plain(text string) string {
	return strings.ToLower(strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(text))
}

// wordsOf are the words to be searched for.
func wordsOf(text string) []string { return strings.Fields(plain(text)) }
