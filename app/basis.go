package app

import (
	"slices"

	"clampline/analysis"
	"clampline/app/details"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// surgeChoice is the surge case that counts. The zero value is all of them, the
// worst counting.
type surgeChoice struct {
	id   diagram.ID // empty for a usual one, which has none
	name string
}

// of returns the place of the choice among surge cases, and false where all of
// them count. A usual one is known by its name, also once the sheet has made
// it its own or has given it up again.
func (c surgeChoice) of(surges []diagram.Surge) (int, bool) {
	if c == (surgeChoice{}) {
		return 0, false
	}
	at := slices.IndexFunc(surges, func(s diagram.Surge) bool { return c.id != "" && s.ID == c.id })
	if at < 0 {
		at = slices.IndexFunc(surges, func(s diagram.Surge) bool { return s.Name == c.name })
	}
	return max(at, 0), at >= 0
}

// pick returns the surge cases to solve: the chosen one, or none, which stands
// for all.
func (c surgeChoice) pick(doc *diagram.Document) []diagram.Surge {
	surges := analysis.SurgesOf(doc)
	if at, one := c.of(surges); one {
		return surges[at : at+1]
	}
	return nil
}

// setBasis changes the basis, also for the next start.
func (a *App) setBasis(basis analysis.Basis) {
	if basis == a.basis {
		return
	}
	a.basis = basis
	a.prefs.setBasis(basis)
	a.refresh()
}

// switchBasis changes from one basis to the other.
func (a *App) switchBasis() {
	if a.basis == analysis.HandRule {
		a.setBasis(analysis.Transient)
		return
	}
	a.setBasis(analysis.HandRule)
}

// setSurge makes the surge case at a place of the list the one that counts, or
// all of them where the place is below zero.
func (a *App) setSurge(at int) {
	choice := surgeChoice{}
	if surges := analysis.SurgesOf(a.editor.Document()); at >= 0 && at < len(surges) {
		choice = surgeChoice{surges[at].ID, surges[at].Name}
	}
	a.surge = choice
	a.refresh()
}

// stepSurge goes on in the list of surge cases, in which all of them stand
// before the first.
func (a *App) stepSurge(by int) {
	surges := analysis.SurgesOf(a.editor.Document())
	at, one := a.surge.of(surges)
	if !one {
		at = -1
	}
	n := len(surges) + 1
	a.setSurge((at+1+by+n)%n - 1)
}

// editSurges shows the surge cases in the details, or the selection again.
func (a *App) editSurges() {
	a.editing = !a.editing
	a.refresh()
	if a.editing {
		a.details.FocusFirst(a.window.Canvas())
	}
}

// endSurges shows the selection in the details again.
func (a *App) endSurges() {
	a.details.Commit()
	a.editing = false
	a.refresh()
	a.focusSheet()
}

// allSurges is the line of the list that stands before the surge cases.
const allSurges = "All, the worst counts"

// surgeLines returns the lines of the list of surge cases.
func surgeLines(doc *diagram.Document, c unit.Convention) []string {
	return append([]string{allSurges}, details.SurgeNames(doc, c)...)
}
