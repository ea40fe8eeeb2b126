package rule_test

import (
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/library"
)

// A mend must do no harm where the sheet has changed since.
func TestPlaceUsualLater(t *testing.T) {
	tests := []struct {
		name   string
		change func(*diagram.Tx)
		want   int // protectors in the plan afterwards
	}{
		{"nothing changed", func(*diagram.Tx) {}, 1},
		{"the board is gone", func(tx *diagram.Tx) { tx.Remove("main") }, 0},
		{"the plan is gone", func(tx *diagram.Tx) {
			tx.SetPlan(diagram.Plan{ID: "plan-2"})
			tx.Remove(diagram.FirstPlan)
		}, 0},
		{"a protector is there by now", func(tx *diagram.Tx) {
			tx.SetProtector(connected(diagram.Protector{ID: "mine", Plan: diagram.FirstPlan, Bus: "main", Type: diagram.Type1}))
		}, 1},
		{"a point-of-use protector is there by now", func(tx *diagram.Tx) {
			tx.SetProtector(connected(diagram.Protector{ID: "mine", Plan: diagram.FirstPlan, Bus: "main", Type: diagram.Type3}))
		}, 2},
		{"a protector of another plan is there", func(tx *diagram.Tx) {
			tx.SetPlan(diagram.Plan{ID: "plan-2"})
			tx.SetProtector(connected(diagram.Protector{ID: "mine", Plan: "plan-2", Bus: "main", Type: diagram.Type2}))
		}, 1},
	}
	for _, test := range tests {
		s := house(t, diagram.Dwelling)
		found := s.about(analysis.SubjectRequired)[0]
		s.edit(test.change).apply(found)
		if n := countProtectors(s); n != test.want {
			t.Errorf("%s: %d protectors, want %d", test.name, n, test.want)
		}
	}
}

func TestPlaceUsual(t *testing.T) {
	s := house(t, diagram.Dwelling).edit(func(tx *diagram.Tx) {
		for i, name := range []string{"SPD 7", "SPD-9", "Spare", "SPD x"} {
			tx.SetProtector(diagram.Protector{ID: diagram.ID([]string{"a", "b", "c", "d"}[i]), Plan: diagram.FirstPlan, Bus: "lamp", Name: name})
		}
	})
	found := s.about(analysis.SubjectRequired)[0]
	if found.Mend.Label != "place a protector on main" {
		t.Errorf("the label is %q", found.Mend.Label)
	}
	s.apply(found)
	kinds := library.BuiltIn()
	want := library.Place(kinds[slices.IndexFunc(kinds, func(e library.Entry) bool { return e.Protector.ID == "type-2-120-240" })], diagram.FirstPlan, "main", "")
	want.Name = "SPD-10"
	if !slices.ContainsFunc(slices.Collect(s.doc.ProtectorsOf(diagram.FirstPlan)), func(p diagram.Protector) bool {
		want.ID = p.ID
		return p == want
	}) {
		t.Errorf("the one of the library for 120/240 is not there as %q", want.Name)
	}
}

// Without a known system there is no usual protector.
func TestNothingUsual(t *testing.T) {
	s := newSketch(t).supply(diagram.System{}, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("main").feed(3, "supply > main")
	found := s.about(analysis.SubjectRequired)
	if len(found) != 1 || found[0].Mend.IsThere() {
		t.Errorf("got %q; want one finding that nothing mends", brief(found))
	}
}
