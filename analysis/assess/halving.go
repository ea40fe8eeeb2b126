package assess

import (
	"context"

	"clampline/analysis/transient"
)

// Halve solves each case by half its step, too, and fills in what that changes; of
// two circuits, with loads open and as filters, that which changes more. It takes twice as long as the cases did. Errors are those of Transient.
func (e *Engine) Halve(ctx context.Context, cases []Case) error {
	return each(ctx, len(cases), func(ctx context.Context, i int) error {
		c := &cases[i]
		if len(c.At) > 0 {
			return e.Halve(ctx, c.At)
		}
		if len(c.Taken) > 0 {
			err := e.Halve(ctx, c.Taken)
			if err == nil {
				c.Halving = c.Taken[0].Halving
				if filtered := c.Taken[1].Halving; filtered.Share > c.Halving.Share {
					c.Halving = filtered
				}
			}
			return err
		}
		found, err := transient.Halve(ctx, c.Circuit.Network, transient.Options{Step: c.Circuit.Step, Duration: c.Circuit.Duration}, c.Solved)
		if err == nil {
			c.Halving = &found
		}
		return err
	})
}
