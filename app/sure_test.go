package app

import (
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// sure is the guarded house on the transient basis, with its bands.
func sure(t *testing.T) *App {
	t.Helper()
	a := guarded(t, start(t))
	run(t, a, "basis")
	a.editor.Select("load-1")
	a.refresh()
	run(t, a, "how sure")
	return a
}

func showsBands(a *App) bool { return strings.Contains(drawn(a), "holds in") }

func TestHowSure(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector; TestHowSureStops has the same side by side")
	}
	a := sure(t)
	if !showsBands(a) || !strings.Contains(a.status.doing.Text, "How sure each voltage is stands on its tag") {
		t.Errorf("the sheet shows %q, the status line %q", drawn(a), a.status.doing.Text)
	}
	words := strings.ToLower(strings.ReplaceAll(wordsOf(a.details.Object()), "\u00a0", " "))
	for _, want := range []string{"how sure: 5 % of the runs lie below", "the bus holds", "alone", "moves it by ±"} {
		if !strings.Contains(words, want) {
			t.Errorf("the working does not say %q: %s", want, words)
		}
	}
	if a.judgement.marks.Parts["load-1"].Lines[0] == "" || len(a.judgement.marks.Parts["load-1"].Lines) != 1 {
		t.Error("the marks of the result have changed")
	}
}

// Bands are of one state: whatever changes what is judged takes them away, and taking
// that back does not bring them.
func TestBandsVanish(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector; TestHowSure has the same side by side")
	}
	for name, alter := range map[string]func(*App){
		"an edit":            func(a *App) { change(t, a, "Well") },
		"undo":               func(a *App) { run(t, a, "undo") },
		"another basis":      func(a *App) { run(t, a, "basis") },
		"another surge case": func(a *App) { run(t, a, "next surge") },
		"another plan":       func(a *App) { run(t, a, "new plan") },
		"another sheet":      func(a *App) { a.workOn(diagram.New(), "") },
	} {
		a := sure(t)
		if alter(a); showsBands(a) || a.sure.found != nil || strings.Contains(strings.ToLower(wordsOf(a.details.Object())), "how sure") {
			t.Errorf("%s: there are bands still", name)
		}
		if name == "another basis" {
			run(t, a, "basis")
			if showsBands(a) {
				t.Error("there are bands again")
			}
		}
	}
	a := sure(t)
	a.editor.Select("panel-1")
	if a.refresh(); !showsBands(a) {
		t.Error("another selection takes the bands away")
	}
}

// later keeps background work until the test lets it run.
func later(a *App) *[]func() {
	var waiting []func()
	a.run.background = func(f func()) { waiting = append(waiting, f) }
	return &waiting
}

// The command stops what it has begun, and so does a change; nothing is shown of it.
func TestHowSureStops(t *testing.T) {
	for name, stop := range map[string]func(*App){
		"the command": func(a *App) { run(t, a, "how sure") },
		"an edit":     func(a *App) { change(t, a, "Well") },
	} {
		a := guarded(t, start(t))
		run(t, a, "basis")
		waiting := later(a)
		run(t, a, "how sure")
		if len(*waiting) != 1 || !strings.Contains(a.status.engine.Text(), "how sure: run 0 of 1, Ctrl+Shift+B stops") {
			t.Errorf("%s: %d wait, and the status line says %q", name, len(*waiting), a.status.engine.Text())
		}
		stop(a)
		if a.sure.seeking != nil || strings.Contains(a.status.engine.Text(), "how sure") {
			t.Errorf("%s: it goes on: %q", name, a.status.engine.Text())
		}
		if (*waiting)[0](); showsBands(a) || a.sure.found != nil || a.isAsking() {
			t.Errorf("%s: something is shown all the same", name)
		}
	}
}

// By the hand rule there is nothing to tell.
func TestHowSureIsOfTheTransient(t *testing.T) {
	a := guarded(t, start(t))
	if run(t, a, "how sure"); a.sure.found != nil || !itemOf(t, a, "how sure").Disabled {
		t.Error("there are bands by the hand rule")
	}
	if run(t, a, "basis"); itemOf(t, a, "how sure").Disabled || a.judgement.result.Basis != analysis.Transient {
		t.Error("the command is grey on the transient basis")
	}
}
