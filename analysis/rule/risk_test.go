package rule_test

import (
	"context"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// clinic is a supply with a main board, two boards below and a junction between
// supply and main board.
func clinic(t *testing.T, e diagram.Exposure) *sketch {
	return newSketch(t).later().supply(tnsOf400, e).part(diagram.Part{ID: "box", Kind: diagram.Junction}).panels("main", "ward", "store").
		feed(5, "supply > box").feed(3, "box > main").feed(20, "main > ward", "main > store")
}

func TestRiskAtOrigin(t *testing.T) {
	commerce := diagram.Exposure{Occupancy: diagram.Commerce}
	const clause = "supply+main: IEC 60364-4-44:2007 with amendment 1:2015, clause 443"
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"nothing there", clinic(t, commerce), []string{"error " + clause}},
		{"not assessed", clinic(t, diagram.Exposure{}), []string{"warning " + clause}},
		{"class II at the origin", clinic(t, commerce).protect(diagram.ClassII, "main"), []string{}},
		{"class I at the origin", clinic(t, commerce).protect(diagram.ClassI, "main"), []string{}},
		{"class not known", clinic(t, commerce).protect("", "main"), []string{}},
		{"class III at the origin", clinic(t, commerce).protect(diagram.ClassIII, "main"), []string{"error " + clause}},
		{"ahead of the main board", clinic(t, commerce).protect(diagram.ClassI, "box"), []string{}},
		{"far ahead of the main board", clinic(t, commerce).panels("far").part(diagram.Part{ID: "pole", Kind: diagram.Junction}).feed(5, "supply > pole").feed(3.1, "pole > far").
			protect(diagram.ClassII, "pole", "main"), []string{"error supply+far: IEC 60364-4-44:2007 with amendment 1:2015, clause 443"}},
		{"one of which no mode is stated", clinic(t, commerce).edit(func(tx *diagram.Tx) {
			tx.SetProtector(diagram.Protector{ID: "blank", Plan: diagram.FirstPlan, Bus: "main", Type: diagram.ClassII})
		}), []string{"error " + clause}},
		{"surroundings not stated", clinic(t, diagram.Exposure{Occupancy: diagram.Dwelling, FlashDensity: 0.5, LowCable: 400, HighCable: 600}), []string{"warning " + clause}},
		{"only below", clinic(t, commerce).protect(diagram.ClassII, "ward", "store"), []string{"error " + clause}},
		{
			"no need", clinic(t, diagram.Exposure{Occupancy: diagram.Dwelling, Surroundings: diagram.Urban, FlashDensity: 0.1, LowCable: 500}), []string{}, // 850 / ((2 × 0.5 + 0.5) × 0.1) = 5667
		},
		{"North American practice", clinic(t, commerce).codes(diagram.Codes{Practice: diagram.NECPractice}), []string{}},
		{
			"two boards at the origin", clinic(t, commerce).panels("annex").feed(9, "box > annex").protect(diagram.ClassII, "main"),
			[]string{"error supply+annex: IEC 60364-4-44:2007 with amendment 1:2015, clause 443"},
		},
		{
			"the board with the service disconnect is the origin",
			clinic(t, commerce).alter("ward", func(p *diagram.Part) { p.Board.Service = true }).protect(diagram.ClassII, "main"),
			[]string{"error supply+ward: IEC 60364-4-44:2007 with amendment 1:2015, clause 443"},
		},
		{"a supply that feeds nothing", newSketch(t).later().supply(tnsOf400, commerce), []string{}},
		{
			"lightning protection system", clinic(t, diagram.Exposure{Lightning: diagram.LightningII}),
			[]string{"error supply+main: IEC 62305-3:2010 clause 6.2"},
		},
		{
			"by default", clinic(t, diagram.Exposure{Occupancy: diagram.Dwelling}).codes(diagram.Codes{Risk: diagram.ByDefault}),
			[]string{"warning supply+main: BS 7671:2018 amendment 2:2022, section 443"},
		},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectRisk))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
}

func TestRiskTexts(t *testing.T) {
	named := func(e diagram.Exposure, method diagram.RiskMethod) analysis.Finding {
		t.Helper()
		s := clinic(t, e).codes(diagram.Codes{Risk: method}).alter("supply", func(p *diagram.Part) { p.Name = "Grid supply" }).alter("main", func(p *diagram.Part) { p.Name = "Main board" })
		found := s.about(analysis.SubjectRisk)
		if len(found) != 1 {
			t.Fatalf("got %d findings, want one", len(found))
		}
		return found[0]
	}
	const what = "Grid supply comes in at Main board without a class I or II protector"
	const source = "IEC 60364-4-44:2007 with amendment 1:2015, clause 443 (check your edition)"
	got := named(diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: 1, LowOverhead: 400, HighOverhead: 600}, "")
	checkTexts(t, got, what, "the calculated risk level is 81.7, less than 1\u00a0000", "place a class I or II protector at Main board", source)
	if len(got.Working) != 9 {
		t.Errorf("the working has %d steps, want 9", len(got.Working))
	}
	checkTexts(t, named(diagram.Exposure{}, ""), what,
		"the lightning flash density is not entered, so protection is taken as needed",
		"place a class I or II protector at Main board, or state the lightning flash density, the surroundings and the lines to 1 km upstream or to an overvoltage device", source)
	checkTexts(t, named(diagram.Exposure{FlashDensity: 0.5, LowCable: 400, HighCable: 600}, ""), what,
		"the calculated risk level is 326.9, less than 1\u00a0000, where what is not stated is taken as worst: the surroundings",
		"place a class I or II protector at Main board, or state the surroundings", source)
	checkTexts(t, named(diagram.Exposure{Lightning: diagram.LightningI}, ""), what,
		"the building has a lightning protection system: part of a strike leaves through the supply",
		"place a class I protector at Main board", "IEC 62305-3:2010 clause 6.2 (from memory; check your edition)")
	checkTexts(t, named(diagram.Exposure{Occupancy: diagram.Dwelling}, diagram.ByDefault), what,
		"protection is the rule; only the owner of a single dwelling of small value may decline it",
		"place a class I or II protector at Main board, or record that the owner of a single dwelling declines it",
		"BS 7671:2018 amendment 2:2022, section 443 (from memory; check your edition)")
}

// A sentence names no more than six boards.
func TestRiskManyOrigins(t *testing.T) {
	ids := []diagram.ID{"a", "b", "c", "d", "e", "f", "g", "h"}
	s := newSketch(t).later().supply(tnsOf400, diagram.Exposure{}).panels(ids...)
	for _, id := range ids {
		s.feed(4, "supply > "+string(id))
	}
	found := s.about(analysis.SubjectRisk)[0]
	if want := "supply comes in at a, b, c, d, e and 3 more without a class I or II protector"; found.What != want {
		t.Errorf("got %q, want %q", found.What, want)
	}
	if s.apply(found); countProtectors(s) != 8 {
		t.Errorf("%d protectors are placed, want 8", countProtectors(s))
	}
}

// What mends places a protector at the origin. Under a lightning protection
// system it is of class I and carries at least a pole's share: 25, 18.75 and
// 12.5 kA of three lines and a neutral (IEC 62305-1 annex E, half of the flash
// over the supply).
func TestRiskMended(t *testing.T) {
	tests := []struct {
		level diagram.LightningSystem
		kind  diagram.Type
		iimp  float64
	}{
		{"", diagram.ClassII, 0},
		{diagram.LightningI, diagram.ClassI, 25e3},
		{diagram.LightningII, diagram.ClassI, 18.75e3},
		{diagram.LightningIII, diagram.ClassI, 12.5e3},
		{diagram.LightningIV, diagram.ClassI, 12.5e3},
	}
	for _, test := range tests {
		s := clinic(t, diagram.Exposure{Lightning: test.level, Occupancy: diagram.Commerce})
		found := s.about(analysis.SubjectRisk)[0]
		if found.Mend.Label != "place a protector on main" {
			t.Errorf("%q: the label is %q", test.level, found.Mend.Label)
		}
		if left := s.apply(found).about(analysis.SubjectRisk); len(left) > 0 {
			t.Errorf("%q: still there after it was mended: %s", test.level, left[0].What)
		}
		placed := slices.Collect(s.doc.ProtectorsOf(diagram.FirstPlan))
		if len(placed) != 1 {
			t.Fatalf("%q: %d protectors are placed, want one", test.level, len(placed))
		}
		for _, p := range placed {
			if p.Bus != "main" || p.Type != test.kind || p.Iimp < test.iimp || test.iimp == 0 && p.Iimp > 0 || p.Name != "SPD 1" || p.System != tnsOf400 {
				t.Errorf("%q: got %s %q of %s with Iimp %g on %s", test.level, p.Name, p.ID, p.Type, p.Iimp, p.Bus)
			}
		}
	}
}

// What is placed brings no warning of its own, on whatever system, at whatever
// level, and with a known fault current of 30 kA: that of most kinds is 25 kA.
func TestRiskMendedIsAccepted(t *testing.T) {
	placed := 0
	for _, preset := range diagram.Presets() {
		for _, lightning := range append(diagram.LightningSystems(), "") {
			s := newSite(t, preset.System).exposed(diagram.Exposure{Occupancy: diagram.Commerce, Lightning: lightning}).
				board("main", diagram.BoardData{Service: true, MainBreaker: 400}).wire(5, diagram.Fuse, "supply > main").flows("main", analysis.Fault{ThreePhase: 30e3})
			for _, f := range diagramtest.Must(rule.Check(context.Background(), s.input())) {
				if f.Subject == analysis.SubjectRisk && f.Mend.IsThere() {
					s.apply(f)
					placed++
				}
			}
			for _, f := range diagramtest.Must(rule.Check(context.Background(), s.input())) {
				if _, onProtector := s.doc.Protector(f.Records[0]); onProtector && f.Severity > analysis.Remark {
					t.Errorf("%s, lightning protection system %q: %s: %s", preset.Name, lightning, f.Severity, f.What)
				}
			}
		}
	}
	if placed == 0 {
		t.Error("nothing was placed: the test sees too little")
	}
}

// No mend contradicts the practice, or places what nobody makes.
func TestRiskNotMended(t *testing.T) {
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	tests := []struct {
		name   string
		system diagram.System
		level  diagram.LightningSystem
		want   bool
	}{
		{"level III, two conductors get 25 kA each", single, diagram.LightningIII, true},
		{"level I, two conductors get 50 kA each", single, diagram.LightningI, false},
		{"IEC practice on a solidly grounded system", wyeOf208, diagram.LightningII, false},
	}
	for _, test := range tests {
		s := newSketch(t).later().supply(test.system, diagram.Exposure{Lightning: test.level}).panels("main").feed(3, "supply > main").codes(diagram.Codes{Practice: diagram.IECPractice})
		if found := s.about(analysis.SubjectRisk); len(found) != 1 || found[0].Mend.IsThere() != test.want {
			t.Errorf("%s: got %q; want one finding with a mend: %v", test.name, brief(found), test.want)
		}
	}
}

// Every line to another structure leaves by a protector, where the building has a
// lightning protection system.
func TestRiskAtOtherStructure(t *testing.T) {
	barn := func(l diagram.LightningSystem) *sketch {
		return clinic(t, diagram.Exposure{Lightning: l, Occupancy: diagram.Commerce}).protect(diagram.ClassI, "main").
			part(diagram.Part{ID: "barn", Kind: diagram.Panel, Board: diagram.BoardData{Structure: true}}).feed(80, "ward > barn")
	}
	const bare = "warning barn: IEC 62305-4:2010 and IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.1"
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"nothing there", barn(diagram.LightningIII), []string{bare}},
		{"class II", barn(diagram.LightningIII).protect(diagram.ClassII, "barn"), []string{}},
		{"class III", barn(diagram.LightningIII).protect(diagram.ClassIII, "barn"), []string{bare}},
		{"no lightning protection system", barn(diagram.NoLightningSystem), []string{}},
		{"not known", barn(""), []string{}},
		{"not the first of another structure", barn(diagram.LightningIII).alter("barn", func(p *diagram.Part) { p.Board.Structure = false }), []string{}},
		{"at the origin, which is told there", clinic(t, diagram.Exposure{Lightning: diagram.LightningIII}).alter("main", func(p *diagram.Part) { p.Board.Structure = true }),
			[]string{"error supply+main: IEC 62305-3:2010 clause 6.2"}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectRisk))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
	s := barn(diagram.LightningI)
	found := s.about(analysis.SubjectRisk)[0]
	checkTexts(t, found,
		"barn, the first board of another structure, has no class I or II protector",
		"the building that feeds it has a lightning protection system: a flash lifts its earth, and part of the current leaves over the feeder between the two",
		"place a class I or II protector at barn; class I if the other structure has a lightning protection system too",
		"IEC 62305-4:2010 and IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.1 (from memory; check your edition)")
	if left := s.apply(found).about(analysis.SubjectRisk); len(left) > 0 {
		t.Errorf("still there after it was mended: %q", brief(left))
	}
}
