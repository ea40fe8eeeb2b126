package app

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/app/details"
	"clampline/diagram"
)

// buying is what the selected protector buys: by the hand rule at once, by the transient where
// somebody asks. It belongs to one state of the sheet.
type buying struct {
	at      boughtState
	buys    details.Buys
	halt    map[analysis.Basis]context.CancelFunc // of the work under way
	byHand  bool                                  // the hand rule has been asked
	solving *int                                  // names the transient under way; nil where there is none
	version int64                                 // rises with all that the details show of it
}

// boughtState is of what the answer is.
type boughtState struct {
	state
	protector diagram.ID
}

// forgetBuys drops what is of another state. Until the hand rule answers anew, what it said
// of the same protector before stays.
func (a *App) forgetBuys() {
	b, now := &a.buying, boughtState{a.state(), a.selectedProtector()}
	if b.at == now {
		return
	}
	b.stop()
	kept := details.Buys{Protector: now.protector}
	if b.at.protector == now.protector && b.at.editor == now.editor {
		kept.Hand = b.buys.Hand
	}
	*b = buying{at: now, buys: kept, version: b.version + 1, halt: map[analysis.Basis]context.CancelFunc{}}
}

// seekBuys asks the hand rule what the selected protector buys, once the sheet is judged.
func (a *App) seekBuys() {
	b := &a.buying
	if b.at.protector == "" || b.byHand || a.judge.isWorking() || a.judgement.result == nil {
		return
	}
	b.byHand = true
	a.runBuys(analysis.HandRule, func(found *compare.Bought, err error) {
		if err == nil {
			a.buying.buys.Hand = found
		}
	}, nil)
}

// stop ends the work under way.
func (b *buying) stop() {
	for _, halt := range b.halt {
		halt()
	}
}

// selectedProtector returns the selected one of the plan that is shown, or nothing.
func (a *App) selectedProtector() diagram.ID {
	selected := a.editor.Selection()
	if len(selected) != 1 {
		return ""
	}
	if p, ok := a.editor.Document().Protector(selected[0]); ok && p.Plan == a.editor.Plan() {
		return p.ID
	}
	return ""
}

// runBuys finds in the background what the protector buys on a basis. Both functions are called on
// the window's goroutine, while the state is the same.
func (a *App) runBuys(basis analysis.Basis, done func(*compare.Bought, error), progress func(share float64)) {
	at := a.buying.at
	doc := a.editor.Document().Snapshot()
	p := compare.Purchase{Document: doc, Plan: at.plan, Basis: basis, Surges: a.surge.pick(doc), Only: []diagram.ID{at.protector}}
	if j := a.judgement; j.subject == a.subject() && !a.judge.isWorking() && j.result != nil && j.result.Basis == basis {
		p.Before = j.result
	}
	tell := func(f func()) {
		a.run.window(func() {
			if a.buying.at == at {
				f()
				a.buying.version++
				a.refresh()
			}
		})
	}
	if progress != nil {
		p.Progress = func(share float64) { tell(func() { progress(share) }) }
	}
	ctx, cancel := context.WithCancel(context.Background())
	a.buying.halt[basis] = cancel
	a.run.background(func() {
		found, err := compare.Buys(ctx, &assess.Engine{}, p)
		tell(func() {
			if len(found) == 0 {
				done(nil, err)
				return
			}
			done(&found[0], err)
		})
	})
}

// solveBuys solves by the transient what the protector buys, or stops that.
func (a *App) solveBuys() {
	b := &a.buying
	if b.solving != nil {
		b.halt[analysis.Transient]()
		b.solving, b.buys.Solving = nil, false
		b.version++
		a.refresh()
		return
	}
	mine := new(int)
	b.solving, b.buys.Solving, b.buys.Share, b.buys.Trouble = mine, true, 0, ""
	a.runBuys(analysis.Transient, func(found *compare.Bought, err error) {
		if a.buying.solving != mine {
			return // it was stopped
		}
		a.buying.solving, a.buying.buys.Solving, a.buying.buys.Solved = nil, false, found
		if err != nil {
			a.buying.buys.Trouble = err.Error()
		}
	}, func(share float64) {
		if a.buying.solving == mine {
			a.buying.buys.Share = share
		}
	})
	b.version++
	a.refresh()
}
