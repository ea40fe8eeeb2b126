package app

import (
	"sync"
	"time"
)

// executor says where work runs. Tests run all of it on their own goroutine.
type executor struct {
	background func(func())                              // away from the window
	window     func(func())                              // on the window's goroutine
	every      func(time.Duration, func()) (halt func()) // there too, again and again
	after      func(time.Duration, func()) (halt func()) // once, on a goroutine of its own
}

// inline runs work at once and repeats or puts off nothing.
func inline() executor {
	now := func(f func()) { f() }
	never := func(time.Duration, func()) func() { return func() {} }
	return executor{now, now, never, never}
}

// beside runs work on goroutines of its own.
func beside(window func(func())) executor {
	return executor{
		background: func(f func()) { go f() },
		window:     window,
		every: func(period time.Duration, f func()) func() {
			halt := make(chan struct{})
			go repeat(period, halt, func() { window(f) })
			return func() { close(halt) }
		},
		after: func(pause time.Duration, f func()) func() {
			timer := time.AfterFunc(pause, f)
			return func() { timer.Stop() }
		},
	}
}

// repeat calls f again and again until it is halted.
func repeat(period time.Duration, halt <-chan struct{}, f func()) {
	tick := time.NewTicker(period)
	defer tick.Stop()
	for {
		select {
		case <-halt:
			return
		case <-tick.C:
			f()
		}
	}
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
