package diagram_test

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

func TestNewProtectorName(t *testing.T) {
	tests := []struct {
		name  string
		taken []string
		want  string
	}{
		{"none yet", nil, "SPD 1"},
		{"goes on after the highest", []string{"SPD 2", "SPD 7", "roof"}, "SPD 8"},
		{"as the sheet writes it", []string{"SPD-1", "SPD-2"}, "SPD-3"},
		{"no number", []string{"SPD main", "SPD -3", "SPD 999999999999"}, "SPD 1"},
	}
	for _, test := range tests {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
			for _, name := range test.taken {
				tx.SetProtector(diagram.Protector{ID: tx.NewProtectorID(), Plan: diagram.FirstPlan, Bus: "panel-1", Name: name})
			}
		})
		if got := doc.NewProtectorName(diagram.FirstPlan); got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
	}
}
