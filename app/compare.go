package app

import (
	"context"
	"fmt"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/app/drawer"
	"clampline/diagram"
	"clampline/diagram/edit"
)

// viewCompare is the name of the view of the plans in the drawer.
const viewCompare = "Compare"

// plansState names what the results of all plans are of: another plan alone changes none.
type plansState struct {
	editor   *edit.Editor
	document uint64
	basis    analysis.Basis
	surge    surgeChoice
}

// comparison is the plans side by side in the window. What is not at hand is solved in the
// background while the view is seen, the result of the shown plan never again.
type comparison struct {
	view     *drawer.Compare
	at       plansState
	known    map[diagram.ID]*analysis.Result
	table    *compare.Table // of what is known
	of       comparedState
	seeking  *comparing // nil where nobody solves
	unsolved error      // why that ended
	version  int64      // rises with all that the view shows of it
}

// comparedState tells what the table was made of.
type comparedState struct {
	plansState
	bands *bands
	known int // how many results
}

// comparing is the work under way.
type comparing struct {
	done, of int
	share    float64 // of the plan under way that is solved
	cancel   context.CancelFunc
}

func (a *App) plansState() plansState {
	s := a.state()
	return plansState{s.editor, s.document, s.basis, s.surge}
}

// isCompareSeen reports whether the view is what the drawer shows.
func (a *App) isCompareSeen() bool {
	return a.regions != nil && a.regions.open && a.regions.drawer.Shown() == viewCompare
}

// showComparison brings the view up to date, and solves what is missing where it is seen.
func (a *App) showComparison() {
	c := &a.comparison
	if now := a.plansState(); c.at != now {
		c.forget(a.editor.Document(), c.at.basis == now.basis && c.at.surge == now.surge)
		c.at = now
	}
	if !a.isCompareSeen() {
		c.stop()
		return
	}
	a.takeKnown()
	c.fill(a)
	state := drawer.CompareState{Table: c.table, Plan: a.editor.Plan(), Convention: a.convention(), Palette: a.look.Palette()}
	switch {
	case c.unsolved != nil:
		state.Trouble = "Not solved: " + c.unsolved.Error()
	case c.seeking != nil:
		state.Doing = fmt.Sprintf("solving plan %d of %d, %.0f %%", c.seeking.done+1, c.seeking.of, 100*c.seeking.share)
	case a.judge.isWorking():
		state.Doing = "solving the plan on the sheet"
	}
	c.view.Show(state)
}

// forget drops what is of another state. What an edit leaves as it is of a plan stays.
func (c *comparison) forget(doc *diagram.Document, alike bool) {
	c.stop()
	before := c.known
	c.known, c.unsolved = map[diagram.ID]*analysis.Result{}, nil
	for plan, result := range before {
		if alike && c.table != nil && compare.Same(c.table.Document, doc, plan) {
			c.known[plan] = result
		}
	}
}

// stop ends the work under way.
func (c *comparison) stop() {
	if c.seeking != nil {
		c.seeking.cancel()
		c.seeking = nil
	}
}

// takeKnown takes over the result of the shown plan, once that is the newest.
func (a *App) takeKnown() {
	j := a.judgement
	if a.judge.isWorking() || j.result == nil || j.subject != a.subject() || j.unsolved != nil || j.result.Due > 0 {
		return
	}
	a.comparison.known[j.plan] = j.result
}

// input is what is compared now.
func (a *App) compareInput() compare.Input {
	doc := a.editor.Document()
	in := compare.Input{Document: doc, Plans: compare.All(doc), Basis: a.basis, Surges: a.surge.pick(doc), Known: a.comparison.known}
	if b := a.bandsShown(); b != nil {
		in.Bands = map[diagram.ID]map[diagram.ID]analysis.Band{a.editor.Plan(): b}
	}
	return in
}

// fill makes the table of what is known, and has the rest solved once the sheet is at rest.
func (c *comparison) fill(a *App) {
	in := a.compareInput()
	if now := (comparedState{c.at, a.sure.found, len(c.known)}); c.table == nil || c.of != now {
		in.Document = in.Document.Snapshot()
		c.of, c.table = now, in.Table()
	}
	if c.isEmpty(a) || len(in.Missing()) == 0 || c.seeking != nil || c.unsolved != nil || a.judge.isWorking() {
		return
	}
	a.seekPlans(in)
}

// isEmpty reports whether the sheet is known to have nothing that is judged.
func (c *comparison) isEmpty(a *App) bool {
	return a.judgement.result != nil && len(a.judgement.result.Buses) == 0
}

// seekPlans solves the plans that are missing, one after the other, and tells each.
func (a *App) seekPlans(in compare.Input) {
	ctx, cancel := context.WithCancel(context.Background())
	missing := in.Missing()
	s := &comparing{cancel: cancel, of: len(missing)}
	a.comparison.seeking = s
	in.Document = in.Document.Snapshot()
	a.run.background(func() {
		engine := &assess.Engine{}
		for _, plan := range missing {
			one := in
			one.Plans, one.Known = []diagram.ID{plan}, nil
			one.Progress = func(share float64) { a.run.window(func() { a.toldPlan(s, share) }) }
			found, err := compare.Solve(ctx, engine, one)
			a.run.window(func() { a.havePlan(s, plan, found.Known[plan], err) })
			if err != nil {
				return
			}
		}
	})
}

// toldPlan takes note of how far the work is.
func (a *App) toldPlan(s *comparing, share float64) {
	if a.comparison.seeking == s && share < 1 {
		s.share = share
		a.comparison.version++
		a.refresh()
	}
}

// havePlan takes over a plan that was solved in the background.
func (a *App) havePlan(s *comparing, plan diagram.ID, result *analysis.Result, err error) {
	c := &a.comparison
	if c.seeking != s {
		return // it was stopped
	}
	c.version++
	s.share = 0
	switch {
	case err != nil:
		c.unsolved, c.seeking = err, nil
	default:
		c.known[plan] = result
		if s.done++; s.done == s.of {
			c.seeking = nil
		}
	}
	a.refresh()
}

// showPlan shows the plan on the sheet.
func (a *App) showPlan(plan diagram.ID) {
	a.editor.SetPlan(plan)
	a.refresh()
}

// newComparison makes the view.
func (a *App) newComparison() {
	a.comparison.known = map[diagram.ID]*analysis.Result{}
	a.comparison.view = drawer.NewCompare(drawer.CompareHands{
		GoTo: func(part diagram.ID) { a.goTo([]diagram.ID{part}) }, ShowPlan: a.showPlan, Seen: a.showComparison,
	})
}
