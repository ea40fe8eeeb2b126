package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
)

// An interrupt ends every command that works for long, and says so.
func TestInterrupt(t *testing.T) {
	const demo = "../../assets/demo/fell-farm.clampline"
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, line := range []string{"check", "levels", "levels --basis transient", "surge", "surge --json", "surge --wave Service", "deck"} {
		var out, errs bytes.Buffer
		words := append(strings.Fields(line), demo)
		if got := run(ctx, words, &out, &errs); got != exitInterrupted {
			t.Errorf("%s: got status %d, want %d", line, got, exitInterrupted)
		}
		if got, want := errs.String(), "clampcalc: interrupted\n"; got != want || out.Len() > 0 {
			t.Errorf("%s: got %q and printed %q, want %q and nothing", line, got, out.String(), want)
		}
	}
}
