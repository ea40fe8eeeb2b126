package symbol

import (
	"slices"
	"testing"

	"clampline/diagram/draw"
)

// A quantity stays on one line with its unit, and an accent with its letter.
func TestWrapKeepsTogether(t *testing.T) {
	width := draw.TextWidth("at most 10", 3, false)
	if got, want := Wrap("at most 10\u00a0in", 3, false, width), []string{"at most", "10\u00a0in"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	narrow := draw.TextWidth("e", 3, false)
	if got, want := Wrap("e\u0301e\u0301", 3, false, narrow), []string{"e\u0301", "e\u0301"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
