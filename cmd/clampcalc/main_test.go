package main

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
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

// An interrupt that comes in the middle of the work ends every command soon, on
// a sheet of 10 000 parts, and its last word is that it was interrupted.
func TestInterruptInTheMiddle(t *testing.T) {
	sheet := filepath.Join(t.TempDir(), "large"+file.Extension)
	if err := file.Save(sheet, diagramtest.Building(10_000)); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "out")
	for _, line := range []string{
		"check", "check --json", "levels", "levels --basis transient", "fault", "surge", "surge --json", "surge --wave part-2", "deck", "crosscheck",
		"draw --dpi 20 -o " + to + ".png", "draw -o " + to + ".pdf", "draw -o " + to + ".svg", "survey -o " + to + ".pdf", "survey -o " + to + ".csv",
	} {
		for _, after := range []time.Duration{0, 30 * time.Millisecond, 300 * time.Millisecond} {
			checkInterrupt(t, append(strings.Fields(line), sheet), after)
		}
	}
}

// checkInterrupt wants the best of three tries to end soon: other work on the
// machine may hold up one.
func checkInterrupt(t *testing.T, words []string, after time.Duration) {
	t.Helper()
	const soon = 100 * time.Millisecond
	best := time.Hour
	for range 3 {
		ctx, cancel := context.WithCancel(context.Background())
		var cut time.Time
		time.AfterFunc(after, func() { cut = time.Now(); cancel() })
		var out, errs bytes.Buffer
		status := run(ctx, words, &out, &errs)
		if ctx.Err() == nil {
			cancel()
			return // it was done before
		}
		if status != exitDone && status != exitFindings && (status != exitInterrupted || errs.String() != "clampcalc: interrupted\n") {
			t.Errorf("%q after %v: got status %d and %q", words, after, status, errs.String())
		}
		if best = min(best, time.Since(cut)); best < soon {
			return
		}
	}
	t.Errorf("%q after %v: it went on for %v", words, after, best)
}
