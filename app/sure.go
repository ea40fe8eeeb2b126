package app

import (
	"context"
	"fmt"
	"sync/atomic"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
)

// surety is how sure the voltages are that are shown. It belongs to one state of the
// sheet and its result: with another one it is gone, and what looks for it stops.
type surety struct {
	runs    int // 0 for the usual number
	found   *bands
	seeking *seeking // nil where nobody looks for it
}

// bands are those of a result.
type bands struct {
	at  state
	of  *analysis.Result
	bus map[diagram.ID]analysis.Band
}

// seeking is the work under way.
type seeking struct {
	bands
	done, runs atomic.Int64
	cancel     context.CancelFunc
	halt       func() // of the telling how far it is
}

func (s *seeking) end() {
	s.cancel()
	s.halt()
}

// isShown reports whether the bands are those of what the window shows.
func (b *bands) isShown(a *App) bool { return b.of == a.judgement.result && b.at == a.state() }

// howSure looks for the bands of what is shown, or stops that.
func (a *App) howSure() {
	if s := a.sure.seeking; s != nil {
		s.end()
		a.sure.seeking = nil
		a.note("Stopped; how sure the voltages are is not known")
		return
	}
	a.judge.afterwards(a.seekBands)
}

// mayBeSure reports whether there are voltages of which it can be told how sure they
// are.
func (a *App) mayBeSure() bool {
	return a.judgement.result != nil && a.judgement.result.Basis == analysis.Transient && a.judgement.subject == a.subject()
}

func (a *App) seekBands() {
	if !a.mayBeSure() || a.sure.seeking != nil {
		return
	}
	j, begun := a.judgement, time.Now()
	ctx, cancel := context.WithCancel(context.Background())
	s := &seeking{bands: bands{at: a.state(), of: j.result}, cancel: cancel}
	s.halt = a.run.every(progressPause, a.refresh)
	a.sure.seeking = s
	options := assess.BandOptions{Runs: a.sure.runs, Seed: 1, Progress: func(done, of int) {
		s.done.Store(int64(done))
		s.runs.Store(int64(of))
	}}
	a.run.background(func() {
		found, err := new(assess.Engine).Band(ctx, j.snapshot, j.result, options)
		a.run.window(func() {
			if a.sure.seeking != s {
				return // it was stopped
			}
			s.end()
			a.sure.seeking = nil
			a.haveBands(s, found, err, time.Since(begun))
		})
	})
	a.refresh()
}

// progressPause is how often it is told how far the work is.
const progressPause = 200 * time.Millisecond

// haveBands takes over what was found.
func (a *App) haveBands(s *seeking, found map[diagram.ID]analysis.Band, err error, took time.Duration) {
	if err != nil {
		a.showError("How sure the voltages are is not known", err)
		return
	}
	a.sure.found = &bands{s.at, s.of, found}
	a.note(fmt.Sprintf("How sure each voltage is stands on its tag (solved in %.0f s); the working of a selection says what moves it most", took.Seconds()))
}

// forgetBands drops what is of another state of the sheet.
func (a *App) forgetBands() {
	if s := a.sure.seeking; s != nil && !s.isShown(a) {
		s.end()
		a.sure.seeking = nil
	}
	if f := a.sure.found; f != nil && !f.isShown(a) {
		a.sure.found = nil
	}
}

// bandsShown returns the bands by bus; nil where there are none.
func (a *App) bandsShown() map[diagram.ID]analysis.Band {
	if a.sure.found == nil {
		return nil
	}
	return a.sure.found.bus
}

// progress is how many runs are done, counted from 1 on; 0 where none is under way.
func (s *surety) progress() int64 {
	if s.seeking == nil {
		return 0
	}
	return 1 + s.seeking.done.Load()
}

// sureText tells in the status line how far the work is.
func (a *App) sureText() string {
	s := a.sure.seeking
	return fmt.Sprintf("how sure: run %d of %d, %s stops", s.done.Load(), max(s.runs.Load(), 1), a.keyOf("how sure"))
}

// keyOf letters the key of a command.
func (a *App) keyOf(name string) string {
	for _, command := range a.own {
		if command.Name == name {
			return command.Keys[0].String()
		}
	}
	return ""
}
