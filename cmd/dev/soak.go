package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// runSoak looks for what breaks, for hours: random sheets of everything, extreme
// values, damaged files, edits taken back, surges. What fails is kept with its
// seed.
func runSoak(ctx context.Context, w *workshop, args []string) error {
	hours := 1.0
	rest, err := parseFlags(args, func(flags *flag.FlagSet) {
		flags.Float64Var(&hours, "hours", 1, "")
	})
	switch {
	case err != nil:
		return err
	case len(rest) > 0:
		return usageError(fmt.Sprintf("%q is too much", rest))
	case !(hours > 0 && hours <= 1000):
		return usageError("-hours must be above 0 and at most 1000")
	}
	if err := w.setUp(ctx, toTest); err != nil {
		return err
	}
	kept := filepath.Join(os.TempDir(), "clampline-soak")
	if err := os.MkdirAll(kept, 0o755); err != nil {
		return err
	}
	w.say("what fails is kept in %s", kept)
	length := time.Duration(hours * float64(time.Hour)).Round(time.Second)
	cmd := w.program(ctx, "go", "test", "./cmd/clampcalc", "-run=^TestSoak$", "-count=1", "-timeout=0", "-v")
	cmd.Env = append(cmd.Environ(), "CLAMPLINE_SOAK="+length.String(), "CLAMPLINE_SOAK_KEEP="+kept)
	return explain(cmd.Run(), "go", cmd.Args[1:])
}
