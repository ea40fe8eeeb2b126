package app

import (
	"context"
	"slices"
	"testing"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
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
		if len(c.done) == 0 || c.done[0].subject != c.last || c.isWorking() {
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

// stuck is a run that hears of nothing.
func stuck(stop <-chan struct{}) func(context.Context, *assess.Engine, request, *diagram.Document) (judgement, error) {
	return func(context.Context, *assess.Engine, request, *diagram.Document) (judgement, error) {
		<-stop
		return judgement{}, nil
	}
}

// beginStuck asks for a run that is stuck until stop is closed. What follows is
// judged as usual.
func (c *cutting) beginStuck(t *testing.T) (stop chan struct{}) {
	stop = make(chan struct{})
	t.Cleanup(func() { close(stop) })
	c.work = stuck(stop)
	c.request(same)
	go c.held.jobs[0]()
	c.held.jobs, c.work = nil, nil
	return stop
}

// expire lets the time pass that was set so.
func (c *cutting) expire(t *testing.T, pause time.Duration) {
	t.Helper()
	for _, p := range slices.Clone(c.held.long) {
		if p.pause == pause {
			p.run()
			return
		}
	}
	t.Fatalf("nothing is due after %v", pause)
}

// A run that does not end is given up after its time, which is told, and the
// next change is judged.
func TestStuckRunIsGivenUp(t *testing.T) {
	c := newCutting(t)
	c.beginStuck(t)
	c.expire(t, longest)
	if len(c.done) != 1 || !c.done[0].gaveUp || c.done[0].result != nil || c.isWorking() {
		t.Fatalf("got %+v, working: %t; want one that was given up", c.done, c.isWorking())
	}
	c.request(same)
	c.held.next()
	if len(c.done) != 2 || c.done[1].result == nil || c.done[1].gaveUp {
		t.Errorf("the sheet is not judged anew: %d results", len(c.done))
	}
}

// A stuck run of one sheet keeps no other from being judged.
func TestStuckRunHoldsUpNoOtherSheet(t *testing.T) {
	c := newCutting(t)
	c.beginStuck(t)
	engine := c.engine
	other := house(t)
	c.request(func(r *request) { r.doc = other })
	c.expire(t, parting)
	c.held.next()
	if len(c.done) != 1 || c.done[0].doc != other || c.done[0].result == nil || c.isWorking() {
		t.Errorf("got %d results, working: %t; want that of the other sheet", len(c.done), c.isWorking())
	}
	if c.engine == engine {
		t.Error("two runs share an engine")
	}
}

// A stuck run with a newer request of the same sheet is left behind, too.
func TestStuckRunOfAnOlderState(t *testing.T) {
	c := newCutting(t)
	c.beginStuck(t)
	c.request(same)
	c.held.late.run()
	c.expire(t, parting)
	c.held.next()
	if len(c.done) != 1 || c.done[0].result == nil || c.isWorking() {
		t.Errorf("got %d results, working: %t; want the newest", len(c.done), c.isWorking())
	}
}

// What was given up is told in the window: in the findings, in the status line,
// and instead of a drawing.
func TestGivenUpIsTold(t *testing.T) {
	a := start(t)
	h := &held{}
	a.judge.run = h.executor()
	stop := make(chan struct{})
	t.Cleanup(func() { close(stop) })
	a.judge.work = stuck(stop)
	a.workOn(house(t), "")
	go h.jobs[0]()
	if text := a.findings.EmptyText(); text != "Not judged yet." {
		t.Errorf("before it is judged: got %q", text)
	}
	h.long[0].run()
	if a.judgement.result != nil || !a.judgement.gaveUp || a.findings.EmptyText() != "" {
		t.Errorf("got %+v and %q, want that it was given up", a.judgement, a.findings.EmptyText())
	}
	if got := a.engineText(); got != "given up after 60 s, see the findings" {
		t.Errorf("got %q", got)
	}
	if err := a.writeDrawing(t.TempDir() + "/x.svg"); err == nil {
		t.Error("a drawing was written of what is not judged")
	}
}

// The cut comes from a goroutine of its own and stops a solver that runs.
func TestRunIsCutBesideTheWindow(t *testing.T) {
	queue := make(chan func(), 10)
	doc := demo(t, 0)
	var results []judgement
	j := &judge{run: beside(func(f func()) { queue <- f }), done: func(out judgement) { results = append(results, out) }}
	endless := diagram.Surge{ID: "surge-1", Path: diagram.LinesToEarth, Wave: diagram.LongWave, Voltage: 6000, Current: 100}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetSurge(endless) })
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
