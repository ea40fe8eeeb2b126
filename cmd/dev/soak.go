package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// Parts of the time of a soak; what is left of it goes to the sheets.
const (
	killShare   = 0.1
	fuzzShare   = 0.15
	windowShare = 0.3
)

// runSoak looks for what breaks, for hours: random sheets of everything, extreme
// values, damaged files, edits taken back, surges; programs killed while they
// save; every fuzz target; anything done at the window. What fails is kept with
// its seed.
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
	share := func(part float64) time.Duration {
		return time.Duration(hours * part * float64(time.Hour)).Round(time.Second)
	}
	return w.runStages([]stage{{
		{"sheets", func() error {
			return w.soakTest(ctx, "./cmd/clampcalc", "^TestSoak$", share(1-killShare-fuzzShare-windowShare), kept)
		}},
		{"kills", func() error { return w.soakTest(ctx, "./diagram/file", "^TestKill$", share(killShare), kept) }},
		{"fuzz", func() error {
			return w.checkFuzz(ctx, func(targets int) time.Duration { return max(time.Second, share(fuzzShare)/time.Duration(targets)) })
		}},
		{"window", func() error { return w.soakWindow(ctx, share(windowShare), kept) }},
	}})
}

// soakTest runs one test that goes on for as long as it is told.
func (w *workshop) soakTest(ctx context.Context, folder, test string, length time.Duration, kept string) error {
	cmd := w.program(ctx, "go", "test", folder, "-run="+test, "-count=1", "-timeout=0", "-v")
	cmd.Env = append(cmd.Environ(), soakSettings(length, kept)...)
	return explain(cmd.Run(), "go", cmd.Args[1:])
}

func soakSettings(length time.Duration, kept string) []string {
	return []string{"CLAMPLINE_SOAK=" + length.String(), "CLAMPLINE_SOAK_KEEP=" + kept}
}

// soakWindow has anything done at the window until the time is over; a window
// that was closed, which may happen, is opened again.
func (w *workshop) soakWindow(ctx context.Context, length time.Duration, kept string) error {
	for end := time.Now().Add(length); ; {
		left := time.Until(end).Round(time.Second)
		if left < time.Second || w.system.goos != "linux" {
			return nil
		}
		if err := w.checkWindow(ctx, "WindowMonkey", soakSettings(left, kept)...); err != nil {
			return err
		}
	}
}
