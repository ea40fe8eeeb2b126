package scene

import (
	"testing"

	"clampline/diagram/draw"
)

// A legend has as many rows as a width needs, says each entry once and is no wider,
// unless an entry alone is.
func TestLegendWithin(t *testing.T) {
	var entries []LegendEntry
	for _, text := range []string{"Held", "Tight, above 80 %", "Exceeded", "Unreached by any protector", "Unknown"} {
		entries = append(entries, LegendEntry{Role: draw.RoleHeld, Letter: "H", Text: text})
	}
	row := Legend(entries).Bounds()
	for _, width := range []float64{row.Width(), 120, 60, 1} {
		p := LegendWithin(entries, width)
		texts := 0
		for _, item := range p.Items() {
			if item.Text != nil {
				texts++
			}
			if item.Text != nil && !p.Items()[0].Bounds.Holds(item.Bounds) {
				t.Errorf("%g mm: %q lies beside the card", width, item.Text.String)
			}
		}
		if b := p.Bounds(); texts != 2*len(entries) || width > 50 && b.Width() > width+0.31 || width < row.Width() && b.Height() <= row.Height() {
			t.Errorf("%g mm: %d texts on %v", width, texts, b)
		}
	}
}
