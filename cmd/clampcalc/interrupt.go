package main

import (
	"context"
	"io"
	"sync"
	"time"
)

// grace is how long work may go on after an interrupt: what asks its context
// ends well within. What does not, such as the painting of a drawing, is left
// behind.
const grace = 50 * time.Millisecond

// untilInterrupted does the work and returns its error, or that of the context
// where the work does not end soon after it.
func untilInterrupted(ctx context.Context, work func() error) error {
	ended := make(chan error, 1)
	go func() { ended <- work() }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	select {
	case err := <-ended:
		return err
	case <-time.After(grace):
		return ctx.Err()
	}
}

// gate lets nothing through once it is shut, so that work that was left behind
// prints nothing after the last word.
type gate struct {
	to   io.Writer
	lock sync.Mutex
	shut bool
}

func (g *gate) Write(text []byte) (int, error) {
	g.lock.Lock()
	defer g.lock.Unlock()
	if g.shut {
		return 0, context.Canceled
	}
	return g.to.Write(text)
}

func (g *gate) close() {
	g.lock.Lock()
	g.shut = true
	g.lock.Unlock()
}
