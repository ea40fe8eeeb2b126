package app

import (
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
)

// transiently asks for one surge case, of which nothing is told before its end.
func transiently(r *request) {
	r.basis, r.surge = analysis.Transient, surgeChoice{name: "Supply, ring wave"}
}

// What is found so far ends a coarse run, of which more would be solved twice: where
// nothing newer waits the whole follows.
func TestWhatIsFoundSoFarEndsACoarseRun(t *testing.T) {
	c := newCutting(t)
	c.last = byHand(c.doc, diagram.FirstPlan)
	all := func(r *request) { r.basis = analysis.Transient }
	c.request(all)
	c.request(all)
	for c.held.next() {
	}
	var due []bool
	for _, j := range c.done {
		due = append(due, j.result.Due > 0)
	}
	if !slices.Equal(due, []bool{true, true, true, false}) || inside(c.done[1]) || !inside(c.done[3]) || c.isWorking() {
		t.Errorf("more was due of the results: %t; want one of each run, of which the second is coarse, and the whole", due)
	}
}

// inside tells whether a result has voltages between the ends of feeders.
func inside(j judgement) bool {
	for _, f := range j.result.Feeders {
		if len(f.Samples) > 2 {
			return true
		}
	}
	return false
}

// While a hand moves, feeders are solved by their ends; once it rests the whole is
// solved, and what waits for that is called then, not before.
func TestFeedersAreCoarseWhileAHandMoves(t *testing.T) {
	c := newCutting(t)
	c.last = byHand(c.doc, diagram.FirstPlan) // so that the hand rule does not come first
	c.request(transiently)
	c.held.next()
	if len(c.done) != 1 || !inside(c.done[0]) || c.isWorking() || c.held.late != nil {
		t.Fatalf("one change: got %d results, still working: %t; want the full one", len(c.done), c.isWorking())
	}
	c.request(transiently)
	for range 3 { // each while the one before is solved
		c.request(transiently)
		c.held.next()
	}
	c.held.next()
	called := false
	c.afterwards(func() { called = true })
	if got := len(c.done); got != 5 || !inside(c.done[1]) || slices.ContainsFunc(c.done[2:], inside) {
		t.Fatalf("a drag: got %d results, want the first full and the three others coarse", got)
	}
	if !c.isWorking() || called || c.held.late == nil || c.held.late.pause != restPause {
		t.Fatal("the full result is not due after the last coarse one")
	}
	c.request(transiently) // the hand moves on before the pause is over
	if c.held.late != nil {
		t.Error("it is due though the hand moves on")
	}
	c.held.next()
	if len(c.done) != 6 || inside(c.done[5]) {
		t.Errorf("moved on: got %d results, want a coarse one", len(c.done))
	}
	c.held.late.run()
	if called {
		t.Error("what waits for the full result was called before it")
	}
	c.held.next()
	if len(c.done) != 7 || !inside(c.done[6]) || c.isWorking() || !called {
		t.Errorf("at rest: got %d results, still working: %t, called: %t; want the full one", len(c.done), c.isWorking(), called)
	}
}

// The hand rule has no more and no less to tell while a hand moves.
func TestHandRuleIsNeverCoarse(t *testing.T) {
	c := newCutting(t)
	c.request(same)
	c.request(same)
	c.held.next()
	c.held.next()
	if len(c.done) != 2 || c.isWorking() {
		t.Errorf("got %d results, still working: %t", len(c.done), c.isWorking())
	}
}

// A coarse result of a sheet that is left is followed by nothing of that sheet.
func TestCoarseResultOfAnotherSheet(t *testing.T) {
	c := newCutting(t)
	c.last = byHand(c.doc, diagram.FirstPlan)
	c.request(transiently)
	c.request(transiently)
	c.held.next()
	c.held.next()
	due, other := c.held.late, house(t)
	c.last = byHand(other, diagram.FirstPlan)
	c.request(func(r *request) { r.doc = other; transiently(r) })
	due.run() // its timer had run out already
	for c.held.next() {
	}
	if got := c.done[len(c.done)-1]; got.doc != other || !inside(got) || len(c.done) != 3 || c.isWorking() {
		t.Errorf("got %d results, still working: %t; want the full one of the other sheet last", len(c.done), c.isWorking())
	}
}

// A request says whether it is coarse, and the engine does not stay so.
func TestEngineIsNotLeftCoarse(t *testing.T) {
	doc, engine := house(t), new(assess.Engine)
	r := request{subject: byHand(doc, diagram.FirstPlan)}
	transiently(&r)
	for _, r.coarse = range []bool{true, false, true} {
		out, err := judged(t.Context(), engine, r, doc.Snapshot())
		if err != nil || inside(out) == r.coarse {
			t.Errorf("coarse %t: got voltages inside feeders %t, %v", r.coarse, inside(out), err)
		}
	}
}
