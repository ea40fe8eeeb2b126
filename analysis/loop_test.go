package analysis_test

import (
	"fmt"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// Of very many loops the first are named, and the rest counted.
func TestManyLoops(t *testing.T) {
	s := newSheet(t).supply("u", wye480).boards("a").feed(1, "u > a")
	const sideBySide = 60
	s.edit(func(tx *diagram.Tx) {
		for i := range sideBySide {
			tx.SetFeeder(diagram.Feeder{ID: diagram.ID(fmt.Sprintf("x-%d", i)), From: end("u"), To: end("a"), Length: 1})
		}
	})
	findings := analysis.Trace(s.doc).Findings
	if len(findings) != 51 {
		t.Fatalf("got %d findings, want 50 loops and the count of the rest", len(findings))
	}
	if got, want := findings[0].What, "10 loops more in the network"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := findings[1].What, "feeder u – a closes a loop through u and a"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
