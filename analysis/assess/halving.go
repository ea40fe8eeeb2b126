package assess

import (
	"context"

	"clampline/analysis/transient"
)

// Halve solves each case by half its step, too, and fills in what that changes.
// It takes twice as long as the cases did. Errors are those of Transient.
func (e *Engine) Halve(ctx context.Context, cases []Case) error {
	return each(ctx, len(cases), func(ctx context.Context, i int) error {
		c := &cases[i]
		if len(c.At) > 0 {
			return e.Halve(ctx, c.At)
		}
		found, err := transient.Halve(ctx, c.Circuit.Network, transient.Options{Step: c.Circuit.Step, Duration: c.Circuit.Duration}, c.Solved)
		if err == nil {
			c.Halving = &found
		}
		return err
	})
}
