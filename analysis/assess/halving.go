package assess

import (
	"context"

	"clampline/analysis/circuit"
	"clampline/analysis/transient"
)

// Halving tells how far the peak that moves most does so when the step of the
// computation is halved.
type Halving struct {
	Bus      int     // of the circuit
	Between  string  // the conductors: "A-N"
	From, To float64 // V, by the step and by half of it
	Share    float64 // by which it moves
}

// Halve solves each case by half its step, too, and fills in what that changes.
// It takes three times as long as the cases did. Errors are those of Transient.
func (e *Engine) Halve(ctx context.Context, cases []Case) error {
	return e.each(ctx, len(cases), func(ctx context.Context, i int) error {
		c := &cases[i]
		found, err := transient.Halve(ctx, c.Circuit.Network, transient.Options{Step: c.Circuit.Step, Duration: c.Circuit.Duration})
		if err != nil {
			return err
		}
		bus := c.Circuit.Network.Buses[found.Bus]
		name := bus.PairName(circuit.Pairs(len(bus.Conductors))[found.Pair])
		c.Halving = &Halving{found.Bus, name[:1] + "-" + name[1:], found.From, found.To, found.Share}
		return nil
	})
}
