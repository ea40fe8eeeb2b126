package app

import (
	"context"
	"sync"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// executor says where work runs. Tests run all of it on their own goroutine.
type executor struct {
	background func(func())                              // away from the window
	window     func(func())                              // on the window's goroutine
	every      func(time.Duration, func()) (halt func()) // there too, again and again
}

// inline runs work at once and repeats nothing.
func inline() executor {
	now := func(f func()) { f() }
	return executor{now, now, func(time.Duration, func()) func() { return func() {} }}
}

// beside runs work on goroutines of its own.
func beside(window func(func())) executor {
	background := func(f func()) { go f() }
	return executor{background, window, func(period time.Duration, f func()) func() {
		halt := make(chan struct{})
		background(func() {
			tick := time.NewTicker(period)
			defer tick.Stop()
			for {
				select {
				case <-halt:
					return
				case <-tick.C:
					window(f)
				}
			}
		})
		return func() { close(halt) }
	}}
}

// request is what is to be judged.
type request struct {
	doc        *diagram.Document
	plan       diagram.ID
	bus        diagram.ID // to be explained too, or nothing
	convention unit.Convention
}

// judgement is what a run says about one state of a sheet.
type judgement struct {
	request                      // doc is the document that goes on changing
	snapshot  *diagram.Document  // what was judged
	result    *analysis.Result   // nil where nothing has been judged yet
	marks     scene.Marks        // of the result
	explained analysis.BusResult // with its workings; empty where no bus is explained
	took      time.Duration
}

// explain works out how the voltages of a bus came about. It costs about half
// of what the whole result did.
func (j *judgement) explain(bus diagram.ID) {
	j.explained, _ = assess.Explain(j.snapshot, j.result, bus)
}

// judged judges a snapshot of the request's document.
func judged(r request, snapshot *diagram.Document) (judgement, error) {
	begun := time.Now()
	result, err := assess.Run(context.Background(), snapshot, r.plan)
	if err != nil {
		return judgement{}, err
	}
	out := judgement{request: r, snapshot: snapshot, result: result, took: time.Since(begun)}
	out.marks = mark.Of(snapshot, result, r.convention)
	if _, ok := result.Buses[r.bus]; ok {
		out.explain(r.bus)
	}
	return out, nil
}

// judge has the newest state of the sheet judged. One run is under way at a
// time; a request that comes meanwhile replaces the one that waits, so a drag
// costs one run for each that ends and not one for each step. All methods are
// called on the window's goroutine.
type judge struct {
	run     executor
	done    func(judgement)
	busy    bool
	waiting *request
}

// ask requests a judgement of the document as it is when the run begins.
func (j *judge) ask(r request) {
	j.waiting = &r
	j.next()
}

// isWorking reports whether a result is still to come.
func (j *judge) isWorking() bool { return j.busy || j.waiting != nil }

func (j *judge) next() {
	if j.busy || j.waiting == nil {
		return
	}
	now, snapshot := *j.waiting, j.waiting.doc.Snapshot()
	j.waiting, j.busy = nil, true
	j.run.background(func() {
		out, err := judged(now, snapshot)
		j.run.window(func() {
			j.busy = false
			if err == nil { // else the plan is gone, and a newer request follows
				j.done(out)
			}
			j.next()
		})
	})
}

// keeper writes the recovery copy in the background, one at a time.
type keeper struct {
	run     executor
	busy    bool
	writing sync.WaitGroup
}

// keep runs write away from the window, and done after it on the window's
// goroutine. It must not be called while the keeper is busy.
func (k *keeper) keep(write func() error, done func(error)) {
	k.busy = true
	k.writing.Add(1)
	k.run.background(func() {
		err := write()
		k.writing.Done()
		k.run.window(func() {
			k.busy = false
			done(err)
		})
	})
}

// wait returns once nothing is being written.
func (k *keeper) wait() { k.writing.Wait() }
