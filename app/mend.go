package app

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/app/drawer"
	"clampline/diagram"
	"clampline/diagram/unit"
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
	findings = slices.DeleteFunc(slices.Clone(findings), func(f analysis.Finding) bool { return !f.Mend.IsThere() || !a.offers(f) })
	if len(findings) == 0 {
		a.note("Nothing was changed: it is not among the findings any more.")
		return
	}
	version, before := a.editor.DocumentVersion(), a.editor.Document().Snapshot()
	record := a.recordOf(findings)
	err := forward{a}.Change(mendLabel(findings, a.convention()), func(tx *diagram.Tx) error {
		for _, f := range findings {
			if err := f.Mend.Apply(tx); err != nil {
				return fmt.Errorf("%s: %w", unit.Words(f.What, a.convention()), err)
			}
		}
		return nil
	})
	switch {
	case err != nil:
		a.showError("Not mended", err)
	case a.editor.DocumentVersion() == version:
		a.note("Nothing was changed: what the finding is about is not there any more.")
	default:
		done := record + mendedText(findings, before, a.editor.Document(), a.convention())
		a.note("Mended: " + done + ". " + takesBack)
		a.judge.afterwards(func() { a.tellMended(done, findings) })
	}
}

// mendLabel is what the changes are called in the history.
func mendLabel(findings []analysis.Finding, c unit.Convention) string {
	if len(findings) == 1 {
		return unit.Words(findings[0].Mend.Label, c)
	}
	return fmt.Sprintf("mend %d findings", len(findings))
}

// mendedText says what was done: what the change is called, or how many
// findings there were and what is not as it was before.
func mendedText(findings []analysis.Finding, before, after *diagram.Document, c unit.Convention) string {
	if len(findings) == 1 {
		return unit.Words(findings[0].Mend.Label, c)
	}
	placed, changed := differing(after.Protectors(), before.Protector)
	_, parts := differing(after.Parts(), before.Part)
	_, feeders := differing(after.Feeders(), before.Feeder)
	words := []string{unit.CountOf(len(findings), "finding")}
	for _, of := range []struct {
		count      int
		noun, what string
	}{{placed, "protector", "placed"}, {changed, "protector", "changed"}, {parts, "part", "changed"}, {feeders, "feeder", "changed"}} {
		if of.count > 0 {
			words = append(words, unit.CountOf(of.count, of.noun)+" "+of.what)
		}
	}
	return strings.Join(words, ", ")
}

// record is a part, feeder or protector of a document.
type record interface {
	diagram.Part | diagram.Feeder | diagram.Protector
	comparable
}

// differing returns how many records were not there before, and how many were
// and are no longer the same.
func differing[R record](now iter.Seq[R], before func(diagram.ID) (R, bool)) (added, changed int) {
	for r := range now {
		old, ok := before(idOf(r))
		switch {
		case !ok:
			added++
		case old != r:
			changed++
		}
	}
	return added, changed
}

func idOf(r any) diagram.ID {
	switch r := r.(type) {
	case diagram.Part:
		return r.ID
	case diagram.Feeder:
		return r.ID
	case diagram.Protector:
		return r.ID
	}
	return ""
}

// recordOf begins what is said of a change where that rewrites what a plan
// records of the building.
func (a *App) recordOf(findings []analysis.Finding) string {
	for _, f := range findings {
		if name, ok := drawer.Recorded(f, a.editor.Document(), a.editor.Plan()); ok {
			return "in the record of “" + name + "”, "
		}
	}
	return ""
}

// copyPlan duplicates the plan that is shown, so that it stays as it is, and
// shows the copy.
func (a *App) copyPlan() {
	kept := a.editor.Document().NameOf(a.editor.Plan())
	a.runNamed("duplicate plan")
	a.note(fmt.Sprintf("%s is a copy of “%s”, which stays as it is.", a.editor.Document().NameOf(a.editor.Plan()), kept))
}

// newest returns the finding as the newest result has it, and whether it still has it.
func (a *App) newest(f analysis.Finding) (analysis.Finding, bool) {
	if a.judgement.result == nil {
		return analysis.Finding{}, false
	}
	all := a.judgement.result.Findings
	i := slices.IndexFunc(all, func(other analysis.Finding) bool { return other.Key() == f.Key() })
	if i < 0 {
		return analysis.Finding{}, false
	}
	return all[i], true
}

// offers reports whether the newest result still has the finding, with the same
// change to the same things.
func (a *App) offers(f analysis.Finding) bool {
	now, found := a.newest(f)
	return found && now.Mend.Kind == f.Mend.Kind && slices.Equal(now.Records, f.Records)
}

// tellMended says where a change that was to take findings away did not,
// unless something else was done meanwhile.
func (a *App) tellMended(done string, findings []analysis.Finding) {
	left := 0
	for _, f := range findings {
		if now, found := a.newest(f); found && now.Severity >= f.Severity {
			left++
		}
	}
	if left > 0 && a.noticed() != "" {
		a.note(fmt.Sprintf("Done: %s; but %s still there. %s", done, unit.CountOf(left, "finding is|findings are"), takesBack))
	}
}
