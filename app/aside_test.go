package app

import (
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
)

// A finding is set aside with its reason, does not count any more, is listed apart
// with who said so, and counts again when that is asked for or undone.
func TestFindingSetAside(t *testing.T) {
	a := guarded(t, start(t))
	count := len(a.judgement.result.Findings)
	first := a.judgement.result.Findings[0]
	a.askAside(first)
	says(t, a, strings.ReplaceAll(first.What, "\u00a0", " "))
	answer(t, a, "Set aside")
	says(t, a, "Say both")
	all[*line](asked(t, a))[0].SetText(" the owner takes the risk ")
	answer(t, a, "Set aside")
	says(t, a, "Say both")
	fields := all[*line](asked(t, a))
	if got := fields[0].Text; got != "the owner takes the risk" {
		t.Errorf("the reason is asked for again: %q", got)
	}
	fields[1].SetText("A. Planner")
	answer(t, a, "Set aside")
	result := a.judgement.result
	if len(result.Findings) != count-1 || len(result.Aside) != 1 || result.Aside[0].By.By != "A. Planner" || result.Aside[0].By.Day == "" {
		t.Fatalf("%d of %d count, %d set aside: %+v", len(result.Findings), count, len(result.Aside), result.Aside)
	}
	if slices.ContainsFunc(result.Findings, func(f analysis.Finding) bool { return f.Key() == first.Key() }) {
		t.Error("it counts all the same")
	}
	if words := wordsOf(a.findings.Object()); !strings.Contains(words, "Set aside (1)") {
		t.Errorf("the list does not tell of it: %q", words)
	}
	a.askAside(result.Findings[0])
	if got := all[*line](asked(t, a))[1].Text; got != "A. Planner" {
		t.Errorf("the name is asked for again: %q", got)
	}
	answer(t, a, "Cancel")
	a.countAgain(result.Aside[0])
	if len(a.judgement.result.Findings) != count {
		t.Error("it does not count again")
	}
	run(t, a, "undo")
	if len(a.judgement.result.Aside) != 1 {
		t.Error("undo does not set it aside again")
	}
}
