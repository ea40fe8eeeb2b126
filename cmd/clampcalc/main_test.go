package main

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
	"clampline/diagram/unit"
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
	if testing.Short() {
		t.Skip("it takes ten seconds")
	}
	sheet := filepath.Join(t.TempDir(), "large"+file.Extension)
	if err := filetest.Save(sheet, diagramtest.Building(10_000)); err != nil {
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

// soon returns within what a command ends that was interrupted: 100 ms, or more
// where the machine is busy, in proportion to tracing a building of 10 000 parts,
// which usually takes 20 ms.
func soon() time.Duration {
	begun := time.Now()
	analysis.Trace(yardstick())
	return max(100*time.Millisecond, 5*time.Since(begun))
}

var yardstick = sync.OnceValue(func() *diagram.Document { return diagramtest.Building(10_000) })

// checkInterrupt wants the best of three tries to end soon: other work on the
// machine may hold up one.
func checkInterrupt(t *testing.T, words []string, after time.Duration) {
	t.Helper()
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
		if best = min(best, time.Since(cut)); best < soon() {
			return
		}
	}
	t.Errorf("%q after %v: it went on for %v", words, after, best)
}

// What an analysis refuses is named in the words of the convention, and a surge
// case without a name by what it is.
func TestRefusalsNameWhatTheyAreAbout(t *testing.T) {
	doc := diagram.New()
	iec := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: iec})
		tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "alone", Kind: diagram.Panel})
		tx.SetFeeder(diagram.Feeder{ID: "feeder", From: diagram.End{Part: "supply"}, To: diagram.End{Part: "board"}, Length: 10})
		tx.SetSurge(diagram.Surge{ID: "surge", Part: "alone", Path: diagram.LineToNeutral, Wave: diagram.RingWave, Voltage: 6000, Current: 500})
	})
	checkRefusal(t, doc, "surge case alone: ring, line to neutral: the system at alone is not known")
	if got, want := (sheet{convention: unit.IEC}).refusal(errors.New("SPD-1: mode L-G: too low")).Error(), "SPD-1: mode L-PE: too low"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func checkRefusal(t *testing.T, doc *diagram.Document, want string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sheet"+file.Extension)
	if err := filetest.Save(path, doc); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if got := run(t.Context(), []string{"surge", path}, &out, &errs); got != exitFile || !strings.Contains(errs.String(), want) {
		t.Errorf("got status %d and %q, want %q", got, errs.String(), want)
	}
}
