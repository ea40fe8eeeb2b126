package app

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
)

// executor says where work runs. Tests run both at once, on their own
// goroutine.
type executor struct {
	background func(func()) // away from the window
	window     func(func()) // on the window's goroutine
}

// judge has the newest state of the sheet judged. One run is under way at a
// time; a request that comes meanwhile replaces the one that waits, so a drag
// costs one run for each that ends and not one for each step. All methods are
// called on the window's goroutine.
type judge struct {
	run     executor
	done    func(*analysis.Result, error)
	busy    bool
	waiting *request
}

type request struct {
	doc  *diagram.Document
	plan diagram.ID
}

// ask requests a judgement of the document as it is now.
func (j *judge) ask(doc *diagram.Document, plan diagram.ID) {
	j.waiting = &request{doc.Snapshot(), plan}
	j.next()
}

func (j *judge) next() {
	if j.busy || j.waiting == nil {
		return
	}
	now := *j.waiting
	j.waiting, j.busy = nil, true
	j.run.background(func() {
		result, err := assess.Run(context.Background(), now.doc, now.plan)
		j.run.window(func() {
			j.busy = false
			j.done(result, err)
			j.next()
		})
	})
}

// keeper writes the recovery copy in the background, one at a time.
type keeper struct {
	run  executor
	busy bool
}

// keep runs write away from the window unless one is under way, and done
// after it on the window's goroutine. It reports whether it did.
func (k *keeper) keep(write func() error, done func(error)) bool {
	if k.busy {
		return false
	}
	k.busy = true
	k.run.background(func() {
		err := write()
		k.run.window(func() {
			k.busy = false
			done(err)
		})
	})
	return true
}
