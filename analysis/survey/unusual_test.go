package survey

import (
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
)

// A number alone is in the unit of its heading, and what is unusual is told
// beside the change.
func TestUnusualIsTold(t *testing.T) {
	const fault = "Fault current marked or told (kA)"
	for _, row := range []struct{ heading, cell, to, note string }{
		{fault, "22", "22 kA", ""},
		{fault, "22 A", "0.022 kA", "Unusual: under 500 A; where 22 kA is meant, type that with its unit."},
		{"Bus rating", "2", "2 A", "Unusual: under 15 A; where 2 kA is meant, type that with its unit."},
		{fault, "450", "450 kA", "Unusual: over 200 kA."},
		{"Bus rating", "1200", "1200 A", ""},
		{"Transformer rating (kVA)", "45", "45 kVA", ""},
		{"Transformer rating (kVA)", "45 VA", "0.045 kVA", "Unusual: under 1 kVA; where 45 kVA is meant, type that with its unit."},
	} {
		id := diagram.ID("panel-5")
		if strings.HasPrefix(row.heading, "Transformer") {
			id = "transformer-2"
		}
		r := written(t, laboratory(t)).set(id, row.heading, row.cell).read()
		at := slices.IndexFunc(r.Changes, func(c Change) bool { return c.To == row.to })
		if at < 0 {
			t.Errorf("%s %s: got %v", row.heading, row.cell, lines(r))
			continue
		}
		if note := r.Changes[at].Note; row.note == "" && strings.Contains(note, "Unusual") || !strings.HasPrefix(strings.ReplaceAll(note, "\u00a0", " "), row.note) {
			t.Errorf("%s %s: the note is %q, want %q", row.heading, row.cell, note, row.note)
		}
	}
}
