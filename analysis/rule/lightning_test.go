package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// yard is a service board and, at the end of a feeder of the length, the first
// board of another structure.
func yard(t *testing.T, l diagram.LightningSystem, length float64) *sketch {
	return newSketch(t).supply(wyeOf480, diagram.Exposure{Lightning: l}).panels("main", "hall").
		part(diagram.Part{ID: "shed", Kind: diagram.Panel, Board: diagram.BoardData{Structure: true}}).
		feed(6, "supply > main").feed(10, "main > hall").feed(length, "hall > shed")
}

// NFPA 780:2020 clause 4.20 (from memory): protectors at every service entrance, and
// where a feeder of 100\u00a0ft or more leaves for another structure.
func TestLightningProtectionSystem(t *testing.T) {
	const clause = ": NFPA 780:2020 clause 4.20"
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"none", yard(t, diagram.NoLightningSystem, 90), []string{}},
		{"not known", yard(t, "", 90), []string{}},
		{"near structure", yard(t, diagram.LightningII, 29.9), []string{"warning main" + clause}},
		{"far structure", yard(t, diagram.LightningUnknown, 30), []string{"warning main" + clause, "warning shed+hall" + clause}},
		{"service protected", yard(t, diagram.LightningI, 10).protect(diagram.Type1, "main"), []string{}},
		{"type 3 at the service", yard(t, diagram.LightningI, 10).protect(diagram.Type3, "main"), []string{"warning main" + clause}},
		{"beside the service", tapped(t, 2).protect(diagram.Type1, "box"), []string{}},
		{"on a pole far ahead of it", tapped(t, 100).protect(diagram.Type1, "box"), []string{"warning main" + clause}},
		{"next boards do not stand in", yard(t, diagram.LightningI, 10).protect(diagram.Type2, "hall"), []string{"warning main" + clause}},
		{"near end", yard(t, diagram.LightningI, 90).protect(diagram.Type2, "main", "hall"), []string{"warning shed" + clause}},
		{"far end", yard(t, diagram.LightningI, 90).protect(diagram.Type2, "main", "shed"), []string{"warning hall" + clause}},
		{
			"the near end of two feeders",
			yard(t, diagram.LightningI, 90).part(diagram.Part{ID: "barn", Kind: diagram.Panel, Board: diagram.BoardData{Structure: true}}).feed(80, "hall > barn").
				protect(diagram.Type2, "main", "shed", "barn"),
			[]string{"warning hall" + clause, "warning hall" + clause},
		},
		{"both ends", yard(t, diagram.LightningI, 90).protect(diagram.Type2, "main", "hall", "shed"), []string{}},
		{
			"from the service board itself",
			yard(t, diagram.LightningI, 0).panels("barn").alter("barn", func(p *diagram.Part) { p.Board.Structure = true }).feed(90, "main > barn"),
			[]string{"warning barn" + clause, "warning main" + clause},
		},
		{
			"no board before the other structure",
			newSketch(t).part(diagram.Part{ID: "set", Kind: diagram.Generator, System: wyeOf480}).
				part(diagram.Part{ID: "shed", Kind: diagram.Panel, Board: diagram.BoardData{Structure: true}}).feed(90, "set > shed"),
			[]string{},
		},
		{
			"a feeder past a board that is no service",
			newSketch(t).supply(wyeOf480, diagram.Exposure{Lightning: diagram.LightningI}).panels("main").
				part(diagram.Part{ID: "first", Kind: diagram.Panel, Board: diagram.BoardData{Structure: true}}).
				alter("main", func(p *diagram.Part) { p.Board.Service = true }).
				feed(90, "supply > first").feed(5, "first > main"),
			[]string{"warning main" + clause},
		},
		{"IEC practice", yard(t, diagram.LightningI, 90).codes(diagram.Codes{Practice: diagram.IECPractice}), []string{}},
	}
	for _, test := range tests {
		for _, edition := range diagram.NECEditions() {
			codes := test.sheet.doc.Info().Codes
			codes.NEC = edition
			got := brief(test.sheet.codes(codes).about(analysis.SubjectRequired))
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("%s, edition %s (want -, got +):\n%s", test.name, edition, diff)
			}
		}
	}
}

// tapped is a service under a lightning protection system with a junction that
// far ahead of its board, m.
func tapped(t *testing.T, metres float64) *sketch {
	return newSketch(t).supply(wyeOf480, diagram.Exposure{Lightning: diagram.LightningI}).panels("main").
		part(diagram.Part{ID: "box", Kind: diagram.Junction}).feed(5, "supply > box").feed(metres, "box > main")
}

func TestLightningTexts(t *testing.T) {
	s := yard(t, diagram.LightningII, 60.96)
	found := s.about(analysis.SubjectRequired)
	if len(found) != 2 {
		t.Fatalf("got %q, want two", brief(found))
	}
	const source = "NFPA 780:2020 clause 4.20 (from memory; check your edition)"
	checkTexts(t, found[0],
		"main, a service entrance of a building with a lightning protection system, has no type 1 or 2 protector",
		"a lightning protection system needs one at every service entrance; check whether it applies to your building",
		"place one in main or right beside it, with an In of at least 20 kA per line", source)
	checkTexts(t, found[1],
		"The feeder from hall to shed in another structure is 200\u00a0ft long and has no type 1 or 2 protector at shed and hall",
		"with a lightning protection system a feeder of 100\u00a0ft or more between structures needs them at its ends; check whether it applies to your building",
		"place one at shed and hall", source)
	for _, f := range found {
		s.apply(f)
	}
	if left := s.about(analysis.SubjectRequired); len(left) > 0 {
		t.Errorf("still there after all was mended: %q", brief(left))
	}
	if n := countProtectors(s); n != 3 {
		t.Errorf("%d protectors are placed, want 3", n)
	}
}

func countProtectors(s *sketch) int {
	n := 0
	for range s.doc.ProtectorsOf(diagram.FirstPlan) {
		n++
	}
	return n
}
