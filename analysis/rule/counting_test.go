package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// A protector that its bus would destroy meets no requirement, one behind a
// transformer does not stand in for the service, and the change that mends the
// finding places another beside the one that does not count.
func TestWhatCountsForARequirement(t *testing.T) {
	made := func(system diagram.System) diagram.Protector {
		p := analysis.TypicalProtector(system)
		p.ID, p.Plan, p.Bus, p.Type = "spd", diagram.FirstPlan, "main", diagram.Type1
		return p
	}
	on := func(p diagram.Protector) *sketch {
		return house(t, diagram.Dwelling).edit(func(tx *diagram.Tx) { tx.SetProtector(p) })
	}
	single := diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true, Earthing: diagram.Solid}
	low := made(splitOf240)
	for mode := range low.Modes {
		low.Modes[mode].MCOV = 50
	}
	behind := newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("main", "lower").
		part(diagram.Part{ID: "t", Kind: diagram.Transformer, System: single, Transformer: diagram.TransformerData{Primary: splitOf240}}).
		feed(6, "supply > main", "main > t:primary", "t:secondary > lower").protect(diagram.Type1, "lower")
	missing := []string{"error main: NFPA 70:2023 section 230.67"}
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"made for it", on(made(splitOf240)), []string{}},
		{"rated for 50 V", on(low), missing},
		{"behind a transformer", behind, missing},
	}
	for _, test := range tests {
		got := test.sheet.about(analysis.SubjectRequired)
		if diff := cmp.Diff(test.want, brief(got)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
		for _, f := range got {
			if left := test.sheet.apply(f).about(analysis.SubjectRequired); len(left) > 0 {
				t.Errorf("%s: %q is still there after %s", test.name, left[0].What, f.Mend.Label)
			}
		}
	}
}
