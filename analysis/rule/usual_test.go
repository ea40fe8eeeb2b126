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

// For a home on two lines of 220/127 V the library has no protector, and the usual one
// comes: made for just these lines, of a Uc above the 1.1 × 127 V of IEC 60364-5-53
// clause 534.4.4.3, for the fault current that flows there, and nothing asks any more.
func TestUsualWhereTheLibraryHasNone(t *testing.T) {
	home := diagram.System{Wiring: diagram.TwoOfWye, Voltage: 220, Neutral: true, Earthing: diagram.TNS, Frequency: 60}
	s := newSketch(t).supply(home, diagram.Exposure{Occupancy: diagram.Dwelling}).
		part(diagram.Part{ID: "main", Kind: diagram.Panel, Board: diagram.BoardData{Service: true}}).feed(10, "supply > main")
	faults := map[diagram.End]analysis.Fault{{Part: "main"}: {At: diagram.End{Part: "main"}, Known: true, LineNeutral: 9.2e3}}
	found := s.aboutWith(analysis.SubjectRisk, faults)
	if len(found) != 1 || !found[0].Mend.IsThere() || len(found[0].Mend.Choices(nil)) > 0 {
		t.Fatalf("got %q, want one finding that nothing of the library mends", brief(found))
	}
	s.apply(found[0])
	placed := slices.Collect(s.doc.ProtectorsOf(diagram.FirstPlan))
	if len(placed) != 1 {
		t.Fatalf("%d protectors are placed", len(placed))
	}
	p := placed[0]
	if p.Bus != "main" || p.System != home || p.Type != diagram.ClassII || p.SCCR != 10e3 || p.Modes[diagram.LineNeutral].MCOV < 1.1*127 {
		t.Errorf("got %+v", p)
	}
	if left := s.aboutWith(analysis.SubjectRisk, faults); len(left) > 0 {
		t.Errorf("still asked for: %q", brief(left))
	}
}

// A transformer of which a use was typed in can hold no protector: the requirement is
// told, and no change is offered that would place nothing.
func TestNothingIsPlacedOnATransformer(t *testing.T) {
	s := newSite(t, wyeOf480).board("main", diagram.BoardData{Service: true}).stepDown("T1", wyeOf480, wyeOf208).
		wire(5, "", "supply > main").wire(5, diagram.Breaker, "main > T1:primary")
	s.use("T1", diagram.FirePumpUse)
	found := s.about(analysis.SubjectRequired)
	if len(found) != 1 || found[0].Records[0] != "T1" || found[0].Mend.IsThere() {
		t.Errorf("got %q; want one finding that nothing mends", brief(found))
	}
}
