package details

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// solved gives the panel a transient result with the surge cases.
func (s *shower) solved(surges ...analysis.SurgeResult) {
	s.judge()
	out := *s.result
	out.Basis, out.Surges = analysis.Transient, surges
	s.result = &out
	s.show("protector-1")
}

func surgeWith(name string, duties ...analysis.Duty) analysis.SurgeResult {
	return analysis.SurgeResult{Surge: diagram.Surge{Name: name}, Protectors: map[diagram.ID][]analysis.Duty{"protector-1": duties}}
}

func TestDutyTable(t *testing.T) {
	first := surgeWith("One", analysis.Duty{Mode: diagram.LineEarth, Amps: 1834.2, Charge: 0.0412, Energy: 40.26, Allows: 0.1745})
	second := surgeWith("Two",
		analysis.Duty{Mode: diagram.LineNeutral, Amps: 12e3, Charge: 2, Energy: 900, Allows: 0.1745},
		analysis.Duty{Mode: diagram.LineEarth, Amps: 250, Charge: 0.5, Energy: 12})
	for _, row := range []struct {
		name      string
		surges    []analysis.SurgeResult
		has, lack []string
	}{
		{"one case", []analysis.SurgeResult{first}, []string{"In the surge", "Surge case “One”.", "L-G 1.83 kA 41.2 mC 40.3 J 24 %"}, []string{"12 kA"}},
		{"the greatest of two", []analysis.SurgeResult{first, second}, []string{"in 2 surge cases", "L-N 12 kA 2 C 900 J 1146 %", "L-G 1.83 kA 0.5 C 40.3 J –"}, nil},
		{"none reaches it", []analysis.SurgeResult{{}}, []string{"In the surge", "No surge case comes to it."}, []string{"Charge"}},
		{"left out", []analysis.SurgeResult{{Assumptions: []analysis.Assumption{{Record: "protector-1", Text: "is left out: it states no voltage"}}}},
			[]string{"Is left out: it states no voltage."}, []string{"Charge"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newShower(t, house(t))
			s.solved(row.surges...)
			s.wants(true, row.has...)
			s.wants(false, row.lack...)
			s.show("panel-1")
			s.wants(false, "In the surge")
		})
	}
}

func TestNoDutiesByTheHandRule(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	s.show("protector-1")
	s.wants(false, "In the surge")
}
