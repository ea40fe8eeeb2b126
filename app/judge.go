package app

import (
	"context"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// subject is what a judgement is of. That of another one is never shown.
type subject struct {
	doc   *diagram.Document // that goes on changing
	plan  diagram.ID
	basis analysis.Basis
	surge surgeChoice
}

// request is what is to be judged.
type request struct {
	subject
	bus        diagram.ID // to be explained too, or nothing
	convention unit.Convention
}

// judgement is what a run says about one state of a sheet.
type judgement struct {
	request
	snapshot  *diagram.Document  // what was judged
	result    *analysis.Result   // nil where nothing has been judged yet
	unsolved  error              // why the result is that of the hand rule, though the transient was asked for
	marks     scene.Marks        // of the result
	explained analysis.BusResult // with its workings; empty where no bus is explained
	took      time.Duration
}

// explain works out how the voltages of a bus came about. It costs about half
// of what the hand rule does.
func (j *judgement) explain(bus diagram.ID) {
	j.explained, _ = assess.Explain(j.snapshot, j.result, bus)
}

// judged judges a snapshot of the request's document. The engine is that of
// nobody else meanwhile.
func judged(ctx context.Context, engine *assess.Engine, r request, snapshot *diagram.Document) (judgement, error) {
	begun := time.Now()
	out := judgement{request: r, snapshot: snapshot}
	err := out.solve(ctx, engine)
	if err != nil {
		return judgement{}, err
	}
	out.took = time.Since(begun)
	out.marks = mark.Of(snapshot, out.result, r.convention)
	if _, ok := out.result.Buses[r.bus]; ok {
		out.explain(r.bus)
	}
	return out, nil
}

// solve finds the result on the basis of the request. Where the transient
// cannot be solved the hand rule stands in for it and a finding says why.
func (j *judgement) solve(ctx context.Context, engine *assess.Engine) error {
	if j.basis == analysis.Transient {
		result, err := engine.Transient(ctx, j.snapshot, j.plan, j.surge.pick(j.snapshot)...)
		if err == nil {
			j.result = result
			return nil
		}
		j.unsolved = err
	}
	hand, err := assess.Run(ctx, j.snapshot, j.plan) // fails where the context has ended or the plan is gone
	if err != nil {
		return err
	}
	if len(hand.Buses) == 0 {
		j.unsolved = nil // nothing is there to be solved
	}
	if j.unsolved != nil {
		hand.Findings = append([]analysis.Finding{unsolvedFinding(j.snapshot, j.plan, j.unsolved)}, hand.Findings...)
	}
	j.result = hand
	return nil
}

const (
	// patience is how long a run that is out of date may go on before a newer
	// request has it cut short.
	patience = 500 * time.Millisecond
	// restPause is how long no request must come for the sheet to be at rest.
	restPause = 150 * time.Millisecond
)

// judge has the newest state of the sheet judged. One run is under way at a
// time, so the engine is its own; a request that comes meanwhile replaces the
// one that waits. All methods are called on the window's goroutine.
//
// When a run that is out of date is cut short:
//
//   - Where the newer request is about another sheet, plan, basis or surge
//     case: at once, since nothing of the run would be shown.
//   - While requests keep coming, as in a drag: never. Were each to cut the run
//     before, none would end and the colours would stand still; so they follow
//     as often as a run ends, however long it takes.
//   - Where requests have stopped for restPause and the run has gone on for
//     patience: then. What is waited for now is the newest state, and a long
//     run of an older one would double the wait. A shorter run is let end: it
//     is nearly done, and its colours are at most half a second old.
type judge struct {
	run     executor
	done    func(judgement)
	engine  assess.Engine
	current *working // nil where no run is under way
	waiting *request
	last    subject  // of the newest result
	later   []func() // to be called once no result is to come
}

// working is the run that is under way.
type working struct {
	subject
	begun  time.Time
	cancel context.CancelFunc
	halt   func() // of the cancelling that is due
}

// ask requests a judgement of the document as it is when the run begins.
func (j *judge) ask(r request) {
	j.waiting = &r
	if j.current != nil {
		j.current.hasten(r.subject, j.run)
	}
	j.next()
}

// hasten cuts the run short for a newer request: now, or when the time that it
// is still given has passed without another one.
func (w *working) hasten(newer subject, run executor) {
	w.halt()
	if newer != w.subject {
		w.cancel()
		return
	}
	w.halt = run.after(max(patience-time.Since(w.begun), restPause), w.cancel)
}

// end lets go of what the run held.
func (w *working) end() {
	w.halt()
	w.cancel()
}

// isWorking reports whether a result is still to come.
func (j *judge) isWorking() bool { return j.current != nil || j.waiting != nil }

// afterwards calls f once the newest request has been judged.
func (j *judge) afterwards(f func()) {
	j.later = append(j.later, f)
	j.next()
}

func (j *judge) next() {
	switch {
	case j.current != nil:
	case j.waiting != nil:
		j.begin(*j.waiting)
	default:
		later := j.later
		j.later = nil
		for _, f := range later {
			f()
		}
	}
}

func (j *judge) begin(now request) {
	snapshot := now.doc.Snapshot()
	ctx, cancel := context.WithCancel(context.Background())
	j.waiting, j.current = nil, &working{now.subject, time.Now(), cancel, func() {}}
	bare := now.doc != j.last.doc || now.plan != j.last.plan
	j.run.background(func() {
		if bare && now.basis == analysis.Transient {
			j.preview(ctx, now, snapshot)
		}
		out, err := judged(ctx, &j.engine, now, snapshot)
		j.run.window(func() {
			j.current.end()
			j.current = nil
			if err == nil { // else it was cut short or the plan is gone, and a newer request follows
				j.give(out)
			}
			j.next()
		})
	})
}

// preview gives the hand rule's result first, where the transient was asked for
// and there is no result of the sheet and plan yet.
func (j *judge) preview(ctx context.Context, r request, snapshot *diagram.Document) {
	first := r
	first.basis = analysis.HandRule
	out, err := judged(ctx, &j.engine, first, snapshot)
	if err != nil {
		return
	}
	out.request = r
	j.run.window(func() { j.give(out) })
}

// give hands a result over.
func (j *judge) give(out judgement) {
	j.last = out.subject
	j.done(out)
}
