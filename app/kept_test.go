package app

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// Two plans that are looked at by turns are judged once each, until the document
// changes; a third one lets the first go.
func TestPlansLookedAtByTurnsAreJudgedOnce(t *testing.T) {
	h := &held{}
	runs, told := 0, 0
	var last judgement
	j := &judge{run: h.executor(), done: func(out judgement) { told++; last = out }}
	j.work = func(ctx context.Context, engine *assess.Engine, r request, snapshot *diagram.Document) (judgement, error) {
		runs++
		return judged(ctx, engine, r, snapshot)
	}
	doc := house(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: "plan-2"})
		tx.SetPlan(diagram.Plan{ID: "plan-3"})
	})
	ask := func(plan diagram.ID, version uint64, want int) {
		t.Helper()
		before := told
		j.ask(request{subject: byHand(doc, plan), version: version})
		for h.next() {
		}
		if runs != want || told == before || last.plan != plan || last.version != version {
			t.Errorf("%s at version %d: %d runs, want %d; told of %s at %d", plan, version, runs, want, last.plan, last.version)
		}
		if j.isWorking() {
			t.Errorf("%s at version %d: more is to come", plan, version)
		}
	}
	ask("plan-1", 1, 1)
	ask("plan-2", 1, 2)
	ask("plan-1", 1, 2)
	ask("plan-2", 1, 2)
	ask("plan-2", 2, 3)
	ask("plan-1", 2, 4)
	ask("plan-2", 2, 4)
	ask("plan-3", 2, 5)
	ask("plan-1", 2, 6)
	ask("plan-1", 0, 7) // nobody counts
	ask("plan-1", 0, 8)
}

// What is not whole is not kept.
func TestPartOfAJudgementIsNotKept(t *testing.T) {
	doc := house(t)
	whole := judgement{request: request{subject: subject{doc: doc, plan: "plan-1", basis: analysis.Transient}, version: 1}, result: &analysis.Result{Basis: analysis.Transient}}
	for name, spoil := range map[string]func(*judgement){
		"as it is":                func(*judgement) {},
		"surges to come":          func(j *judgement) { j.result = &analysis.Result{Basis: analysis.Transient, Due: 1} },
		"the hand rule meanwhile": func(j *judgement) { j.result = &analysis.Result{Basis: analysis.HandRule} },
		"coarse":                  func(j *judgement) { j.coarse = true },
		"given up":                func(j *judgement) { j.result = nil },
		"not solved":              func(j *judgement) { j.unsolved = context.Canceled },
	} {
		one, k := whole, kept{}
		spoil(&one)
		k.keep(one)
		if _, ok := k.of(whole.request); ok != (name == "as it is") {
			t.Errorf("%s: kept: %t", name, ok)
		}
	}
}
