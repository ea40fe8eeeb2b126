package app

import (
	"testing"
	"time"

	"clampline/analysis"
	"clampline/diagram"
)

// cutting is a judge whose runs are held, and what it has judged.
type cutting struct {
	*judge
	held *held
	doc  *diagram.Document
	done []judgement
}

func newCutting(t *testing.T) *cutting {
	c := &cutting{held: &held{}, doc: house(t)}
	c.judge = &judge{run: c.held.executor(), done: func(j judgement) { c.done = append(c.done, j) }}
	return c
}

func (c *cutting) request(change func(*request)) {
	r := request{subject: byHand(c.doc, diagram.FirstPlan)}
	change(&r)
	c.ask(r)
}

func same(*request) {}

// A run whose result would not be shown is cut at once; what is asked for then
// is judged.
func TestRunOfSomethingElseIsCut(t *testing.T) {
	other := house(t)
	for name, change := range map[string]func(*request){
		"another sheet":      func(r *request) { r.doc = other },
		"another basis":      func(r *request) { r.basis = analysis.Transient },
		"another surge case": func(r *request) { r.surge = surgeChoice{name: "Supply, ring wave"} },
	} {
		c := newCutting(t)
		c.request(same)
		c.request(change)
		c.last = c.waiting.subject // so that the hand rule does not come first
		c.held.next()
		if len(c.done) != 0 {
			t.Errorf("%s: the run before went on", name)
		}
		c.held.next()
		if len(c.done) != 1 || c.isWorking() {
			t.Errorf("%s: got %d results, still working: %t; want the newest", name, len(c.done), c.isWorking())
		}
	}
}

// While requests keep coming, the cut is put off at each; once they have
// stopped for long enough it is made.
func TestRunIsCutOnceTheSheetRests(t *testing.T) {
	c := newCutting(t)
	c.request(same)
	if c.held.late != nil {
		t.Error("a cut is due without a newer request")
	}
	c.request(same)
	first := c.held.late
	if first == nil || first.pause > patience || first.pause < patience-100*time.Millisecond {
		t.Fatalf("got %+v, want a cut after %s", first, patience)
	}
	c.current.begun = time.Now().Add(-time.Minute)
	c.request(same)
	if now := c.held.late; now == first || now == nil || now.pause != restPause {
		t.Fatalf("got %+v for an old run, want a new pause of %s", now, restPause)
	}
	c.held.late.run()
	c.held.next()
	if len(c.done) != 0 || !c.isWorking() {
		t.Errorf("got %d results, working: %t; want the run cut and the newest begun", len(c.done), c.isWorking())
	}
	c.held.next()
	if len(c.done) != 1 || c.isWorking() {
		t.Errorf("got %d results, working: %t; want the newest", len(c.done), c.isWorking())
	}
}

// A run that ends before its time is shown, and nothing is left to be cut.
func TestRunThatEndsIsNotCut(t *testing.T) {
	c := newCutting(t)
	c.request(same)
	c.request(same)
	c.held.next()
	if len(c.done) != 1 || c.held.late != nil {
		t.Errorf("got %d results, a cut is due: %t", len(c.done), c.held.late != nil)
	}
	c.held.next()
	if len(c.done) != 2 {
		t.Errorf("got %d results, want both", len(c.done))
	}
}

// The cut comes from a goroutine of its own and stops a solver that runs.
func TestRunIsCutBesideTheWindow(t *testing.T) {
	queue := make(chan func(), 10)
	doc := demo(t, 0)
	var results []judgement
	j := &judge{run: beside(func(f func()) { queue <- f }), done: func(out judgement) { results = append(results, out) }}
	endless := diagram.Surge{ID: "surge-1", Path: diagram.LinesToEarth, Wave: diagram.LongWave, Voltage: 6000, Current: 100}
	if _, err := doc.Edit(func(tx *diagram.Tx) error { tx.SetSurge(endless); return nil }); err != nil {
		t.Fatal(err)
	}
	solve := byHand(doc, diagram.FirstPlan)
	solve.basis = analysis.Transient
	j.ask(request{subject: solve})
	wanted := byHand(doc, diagram.FirstPlan)
	j.ask(request{subject: wanted})
	for j.isWorking() {
		(<-queue)()
	}
	// The hand rule that comes ahead of a first transient may be there already
	// when the run is cut; the transient must not be.
	for _, out := range results {
		if out.result.Basis != analysis.HandRule {
			t.Errorf("got a result by the %s, want the hand rule alone", out.result.Basis)
		}
	}
	if len(results) == 0 || results[len(results)-1].subject != wanted {
		t.Errorf("got %d results, want that of the newest request last", len(results))
	}
}

func TestAfterwards(t *testing.T) {
	c := newCutting(t)
	called := 0
	c.afterwards(func() { called++ })
	if called != 1 {
		t.Error("it waits though nothing is judged")
	}
	c.request(same)
	c.request(same)
	c.afterwards(func() { called++ })
	c.held.next()
	if called != 1 {
		t.Error("it did not wait for the newest request")
	}
	c.held.next()
	c.held.next()
	if called != 2 {
		t.Errorf("called %d times, want twice", called)
	}
}
