package app

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/app/drawer"
	"clampline/diagram"
)

// takesBack is said of what one undo takes back.
const takesBack = "Ctrl+Z takes it back."

// mend makes the changes that take the findings away, as one step, and says
// afterwards what came of it. Where a result is to come it waits for that.
// Findings that the newest result no longer has are left alone: what they would
// change may be another thing by now.
func (a *App) mend(findings []analysis.Finding) {
	if a.judge.isWorking() {
		a.judge.afterwards(func() { a.mend(findings) })
		return
	}
	findings = slices.DeleteFunc(slices.Clone(findings), func(f analysis.Finding) bool { return !f.Mend.IsThere() || !a.isFound(f) })
	if len(findings) == 0 {
		a.note("Nothing was changed: it is not among the findings any more.")
		return
	}
	before := a.editor.DocumentVersion()
	label := mendLabel(findings, a.editor.Document())
	err := forward{a}.Change(label, func(tx *diagram.Tx) error {
		for _, f := range findings {
			if err := f.Mend.Apply(tx); err != nil {
				return fmt.Errorf("%s: %w", f.What, err)
			}
		}
		return nil
	})
	switch {
	case err != nil:
		a.showError("Not mended", err)
	case a.editor.DocumentVersion() == before:
		a.note("Nothing was changed: what the finding is about is not there any more.")
	default:
		a.note("Mended: " + label + ". " + takesBack)
		a.judge.afterwards(func() { a.tellMended(label, findings) })
	}
}

// mendLabel is what the changes are called in the history.
func mendLabel(findings []analysis.Finding, doc *diagram.Document) string {
	first := findings[0]
	if len(findings) == 1 {
		return first.Mend.Label
	}
	return fmt.Sprintf("%s (%d times)", drawer.MendKind(first, doc), len(findings))
}

// isFound reports whether the newest result still has the finding.
func (a *App) isFound(f analysis.Finding) bool {
	return a.judgement.result != nil && slices.ContainsFunc(a.judgement.result.Findings, func(other analysis.Finding) bool {
		return other.Subject == f.Subject && other.What == f.What && other.Mend.Label == f.Mend.Label && slices.Equal(other.Records, f.Records)
	})
}

// tellMended says where a change that was to take findings away did not,
// unless something else was done meanwhile.
func (a *App) tellMended(label string, findings []analysis.Finding) {
	left := 0
	for _, f := range findings {
		if a.isFound(f) {
			left++
		}
	}
	if left > 0 && a.noticed() != "" {
		a.note(fmt.Sprintf("Done: %s; but %s. %s", label, stillThere(left), takesBack))
	}
}

func stillThere(n int) string {
	if n == 1 {
		return "the finding is still there"
	}
	return fmt.Sprintf("%d findings are still there", n)
}
