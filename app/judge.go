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
	version    uint64     // of the document, from 1; 0 where nobody counts
	bus        diagram.ID // to be explained too, or nothing
	convention unit.Convention

	before *analysis.Result // the newest one of the subject, or nil
	soFar  func(judgement)  // told what is found while more is due; nil for nobody

	coarse bool // without what is inside feeders: another state is likely to follow soon
}

// judgement is what a run says about one state of a sheet.
type judgement struct {
	request
	snapshot  *diagram.Document  // what was judged
	result    *analysis.Result   // nil where nothing has been judged yet, or the run was given up
	gaveUp    bool               // the run took longer than longest
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
	engine.Coarse = r.coarse
	out := judgement{request: r, snapshot: snapshot}
	err := out.solve(ctx, engine)
	if err != nil {
		return judgement{}, err
	}
	out.took = time.Since(begun)
	out.tell()
	return out, nil
}

// tell puts the result into marks, and explains the bus that is asked for.
func (j *judgement) tell() {
	j.marks = mark.Of(j.snapshot, j.result, j.convention)
	if _, ok := j.result.Buses[j.bus]; ok {
		j.explain(j.bus)
	}
}

// solve finds the result on the basis of the request. Where the transient
// cannot be solved the hand rule stands in for it and a finding says why.
func (j *judgement) solve(ctx context.Context, engine *assess.Engine) error {
	if j.basis == analysis.Transient {
		result, err := engine.InTurn(ctx, j.snapshot, j.plan, j.turn(), j.surge.pick(j.snapshot)...)
		if err == nil {
			j.result = result
			return nil
		}
		j.unsolved = err
	}
	hand, err := engine.HandRule(ctx, j.snapshot, j.plan) // fails where the context has ended or the plan is gone
	if err != nil {
		return err
	}
	if len(hand.Buses) == 0 {
		j.unsolved = nil // nothing is there to be solved
	}
	if j.unsolved != nil {
		hand.Findings = append([]analysis.Finding{unsolvedFinding(j.unsolved)}, hand.Findings...)
	}
	j.result = hand
	return nil
}

// turn says what is solved first, and who is told meanwhile.
func (j *judgement) turn() assess.Turn {
	out := assess.Turn{Before: j.before}
	if j.bus != "" {
		out.First = []diagram.ID{j.bus}
	}
	if j.soFar != nil {
		request, snapshot := j.request, j.snapshot
		out.SoFar = func(result *analysis.Result) {
			partial := judgement{request: request, snapshot: snapshot, result: result}
			partial.tell()
			request.soFar(partial)
		}
	}
	return out
}

const (
	// patience is how long a run that is out of date may go on before a newer
	// request has it cut short.
	patience = 500 * time.Millisecond
	// restPause is how long no request must come for the sheet to be at rest.
	restPause = 150 * time.Millisecond
	// longest is how long a run may tell nothing before it is given up. Help states it.
	longest = 60 * time.Second
	// parting is how long a run that was cut short may take to end before it is
	// left behind.
	parting = time.Second
)

// judge has the newest state of the sheet judged. One run is under way at a
// time, so the engine is its own; a request that comes meanwhile replaces the
// one that waits. All methods are called on the window's goroutine.
//
// When a run that is out of date is cut short:
//
//   - Where the newer request is about another sheet, plan, basis or surge
//     case: at once, since nothing of the run would be shown.
//   - While requests keep coming, as in a drag: not before it has told what it has
//     found so far. Were each to cut the run before, none would tell and the
//     colours would stand still; so they follow as often as a run tells, however
//     long that takes. What is told so far has the surges that matter most; a
//     newer state is worth more than the rest of an old one.
//   - Where requests have stopped for restPause and the run has gone on for
//     patience: then. What is waited for now is the newest state, and a long
//     run of an older one would double the wait. A shorter run is let end: it
//     is nearly done, and its colours are at most half a second old.
//
// A transient that is asked for while another is under way, as in a drag, is solved
// without what is inside feeders, which takes a tenth to a fifth of the time. Once no
// other request has come for restPause it is solved in full.
//
// A run that does not end although it was cut is left behind after parting, and
// one that takes longer than longest is given up; the next one has an engine of
// its own then, so that nothing keeps another sheet from being judged.
type judge struct {
	run     executor
	done    func(judgement)
	work    func(context.Context, *assess.Engine, request, *diagram.Document) (judgement, error) // nil for judged
	engine  *assess.Engine                                                                       // nil where the next run is to make one
	current *working                                                                             // nil where no run is under way
	waiting *request
	rest    *rest   // of the newest result, where that is coarse; else nil
	last    subject // of the newest result
	newest  *analysis.Result
	kept    kept     // what the plans looked at last came to
	later   []func() // to be called once no result is to come
}

// working is the run that is under way.
type working struct {
	request
	snapshot *diagram.Document
	begun    time.Time
	cancel   context.CancelFunc
	halt     func() // of the cancelling that is due
	expire   func() // halts the giving up
}

// rest is the full run that follows a coarse one where nothing else does.
type rest struct {
	subject
	halt func()
}

// ask requests a judgement of the document as it is when the run begins.
func (j *judge) ask(r request) {
	if out, ok := j.kept.of(r); ok {
		j.recall(out)
		return
	}
	r.coarse = r.basis == analysis.Transient && j.isFollowing(r.subject)
	j.disturb()
	j.waiting = &r
	if j.current != nil {
		j.hasten(j.current, r.subject)
	}
	j.next()
}

// hasten cuts the run short for a newer request: now, or when the time that it
// is still given has passed without another one.
func (j *judge) hasten(w *working, newer subject) {
	w.halt()
	if newer != w.subject {
		j.cut(w)
		return
	}
	w.halt = j.run.after(max(patience-time.Since(w.begun), restPause), func() { j.cut(w) })
}

// cut has a run stop, and leaves it behind where it does not. It may be called
// on any goroutine.
func (j *judge) cut(w *working) {
	w.cancel()
	j.run.after(parting, func() { j.run.window(func() { j.leave(w) }) })
}

// end lets go of what the run held.
func (w *working) end() {
	w.halt()
	w.expire()
	w.cancel()
}

// leave goes on without a run, if that is still under way: its engine stays its
// own.
func (j *judge) leave(w *working) {
	if j.current != w {
		return
	}
	w.end()
	j.current, j.engine = nil, nil
	j.next()
}

// giveUp leaves a run behind that takes too long, and tells where nothing newer
// is asked for.
func (j *judge) giveUp(w *working) {
	if j.current == w && j.waiting == nil {
		j.give(judgement{request: w.request, snapshot: w.snapshot, gaveUp: true})
	}
	j.leave(w)
}

// isWorking reports whether a result is still to come.
func (j *judge) isWorking() bool { return j.current != nil || j.waiting != nil || j.rest != nil }

// isFollowing reports whether a request follows another of the same subject so soon
// that more are likely to come.
func (j *judge) isFollowing(s subject) bool {
	return j.current != nil && j.current.subject == s || j.rest != nil && j.rest.subject == s
}

// await has a coarse result followed by the full one once the hand rests.
func (j *judge) await(full request) {
	full.coarse = false
	own := &rest{subject: full.subject}
	own.halt = j.run.after(restPause, func() {
		j.run.window(func() {
			if j.rest == own {
				j.rest, j.waiting = nil, &full
				j.next()
			}
		})
	})
	j.rest = own
}

// disturb has no full run follow the newest result, since another one is to come.
func (j *judge) disturb() {
	if j.rest != nil {
		j.rest.halt()
		j.rest = nil
	}
}

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
	case j.rest != nil:
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
	w := &working{now, snapshot, time.Now(), cancel, func() {}, func() {}}
	j.waiting, j.current = nil, w
	w.expire = j.expiry(w)
	if now.subject == j.last {
		now.before = j.newest
	}
	now.soFar = func(out judgement) { j.run.window(func() { j.giveSoFar(w, out) }) }
	engine, work := j.tools()
	bare := now.doc != j.last.doc || now.plan != j.last.plan
	j.run.background(func() {
		if bare && now.basis == analysis.Transient {
			j.preview(ctx, w, engine)
		}
		out, err := work(ctx, engine, now, snapshot)
		j.run.window(func() {
			if j.current != w {
				return // it was left behind
			}
			w.end()
			j.current = nil
			if err == nil { // else it was cut short or the plan is gone, and a newer request follows
				if now.coarse && j.waiting == nil {
					j.await(now)
				}
				j.give(out)
			}
			j.next()
		})
	})
}

// tools returns what a run works with.
func (j *judge) tools() (*assess.Engine, func(context.Context, *assess.Engine, request, *diagram.Document) (judgement, error)) {
	if j.engine == nil {
		j.engine = &assess.Engine{}
	}
	if j.work != nil {
		return j.engine, j.work
	}
	return j.engine, judged
}

// preview gives the hand rule's result first, where the transient was asked for
// and there is no result of the sheet and plan yet.
func (j *judge) preview(ctx context.Context, w *working, engine *assess.Engine) {
	first := w.request
	first.basis = analysis.HandRule
	out, err := judged(ctx, engine, first, w.snapshot)
	if err != nil {
		return
	}
	out.request = w.request
	j.run.window(func() {
		if j.current == w {
			j.give(out)
		}
	})
}

// give hands a result over.
func (j *judge) give(out judgement) {
	j.last, j.newest = out.subject, out.result
	j.kept.keep(out)
	j.done(out)
}

// giveSoFar hands over what a run has found while more is due, and cuts the run where
// a newer request waits.
func (j *judge) giveSoFar(w *working, out judgement) {
	if j.current != w {
		return
	}
	w.expire()
	w.expire = j.expiry(w)
	j.give(out)
	switch {
	case j.waiting != nil:
		j.cut(w)
	case w.coarse: // the hand rests
		full := w.request
		full.coarse = false
		j.waiting = &full
		j.cut(w)
	}
}

// expiry has a run given up where it tells nothing for too long.
func (j *judge) expiry(w *working) func() {
	return j.run.after(longest, func() { j.run.window(func() { j.giveUp(w) }) })
}
