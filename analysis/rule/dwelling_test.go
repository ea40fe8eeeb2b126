package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// house is a supply, the service panel and two panels below, one with loads.
func house(t *testing.T, o diagram.Occupancy) *sketch {
	return newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: o}).panels("main", "upper", "lower").
		part(diagram.Part{ID: "lamp", Kind: diagram.Load}).
		feed(6, "supply > main").feed(20, "main > upper", "main > lower", "lower > lamp")
}

// What each edition asks for, as its summaries have it: 230.67 for dwelling
// units since 2020; widened to sleeping rooms, and joined by 215.18 and 225.42,
// in 2023.
func TestDwellingByEdition(t *testing.T) {
	flats := house(t, "").use("lower", diagram.DwellingUnitUse)
	dormitory := house(t, "").use("lower", diagram.SleepingRoomsUse)
	cottage := house(t, "").use("lower", diagram.DwellingUnitUse).alter("lower", func(p *diagram.Part) { p.Board.Structure = true })
	none := []string{}
	tests := []struct {
		name  string
		sheet *sketch
		want  map[diagram.NECEdition][]string
	}{
		{"a dwelling", house(t, diagram.Dwelling), map[diagram.NECEdition][]string{
			diagram.NEC2017: none,
			diagram.NEC2020: {"error main: NFPA 70:2020 section 230.67"},
			diagram.NEC2023: {"error main: NFPA 70:2023 section 230.67"},
			"":              {"error main: NFPA 70:2023 section 230.67"},
		}},
		{"sleeping rooms", house(t, diagram.SleepingRooms), map[diagram.NECEdition][]string{
			diagram.NEC2017: none,
			diagram.NEC2020: none,
			diagram.NEC2023: {"error main: NFPA 70:2023 section 230.67"},
		}},
		{"a panel for a dwelling unit", flats, map[diagram.NECEdition][]string{
			diagram.NEC2017: none,
			diagram.NEC2020: {"error main: NFPA 70:2020 section 230.67"},
			diagram.NEC2023: {"error lower: NFPA 70:2023 section 215.18", "error main: NFPA 70:2023 section 230.67"},
		}},
		{"a panel for sleeping rooms", dormitory, map[diagram.NECEdition][]string{
			diagram.NEC2017: none,
			diagram.NEC2020: none,
			diagram.NEC2023: {"error lower: NFPA 70:2023 section 215.18", "error main: NFPA 70:2023 section 230.67"},
		}},
		{"a dwelling in another structure", cottage, map[diagram.NECEdition][]string{
			diagram.NEC2017: none,
			diagram.NEC2020: {"error main: NFPA 70:2020 section 230.67"},
			diagram.NEC2023: {"error lower: NFPA 70:2023 section 225.42", "error main: NFPA 70:2023 section 230.67"},
		}},
		{"commerce", house(t, diagram.Commerce), map[diagram.NECEdition][]string{
			diagram.NEC2017: none, diagram.NEC2020: none, diagram.NEC2023: none,
		}},
	}
	for _, test := range tests {
		for edition, want := range test.want {
			got := brief(test.sheet.codes(diagram.Codes{NEC: edition}).about(analysis.SubjectRequired))
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%s, edition %q (want -, got +):\n%s", test.name, edition, diff)
			}
		}
	}
}

func TestDwellingService(t *testing.T) {
	missing := []string{"error main: NFPA 70:2023 section 230.67"}
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"type 1", house(t, diagram.Dwelling).protect(diagram.Type1, "main"), []string{}},
		{"type 2", house(t, diagram.Dwelling).protect(diagram.Type2, "main"), []string{}},
		{"type not known", house(t, diagram.Dwelling).protect("", "main"), []string{}},
		{"type 3", house(t, diagram.Dwelling).protect(diagram.Type3, "main"), missing},
		{"one of the next boards", house(t, diagram.Dwelling).protect(diagram.Type2, "upper"), missing},
		{"each of the next boards", house(t, diagram.Dwelling).protect(diagram.Type2, "upper", "lower"), []string{}},
		{"type 3 on one of the next boards", house(t, diagram.Dwelling).protect(diagram.Type2, "upper").protect(diagram.Type3, "lower"), missing},
		{"on a load only", house(t, diagram.Dwelling).protect(diagram.Type2, "lamp"), missing},
		{"IEC practice", house(t, diagram.Dwelling).codes(diagram.Codes{Practice: diagram.IECPractice}), []string{}},
		{
			"beside the service equipment, ahead of it",
			newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("main").
				part(diagram.Part{ID: "box", Kind: diagram.Junction}).feed(3, "supply > box", "box > main").protect(diagram.Type1, "box"),
			[]string{},
		},
		{"far ahead of the service equipment", ahead(t, 100).protect(diagram.Type1, "box"), missing},
		{"a hair more than beside it", ahead(t, 3.1).protect(diagram.Type1, "box"), missing},
		{"beside it, how far is not known", ahead(t, 0).protect(diagram.Type1, "box"), []string{}},
		{
			"beside it in two steps",
			ahead(t, 1).part(diagram.Part{ID: "joint", Kind: diagram.Junction}).panels("annex").feed(1, "box > joint").feed(1, "joint > annex").protect(diagram.Type1, "box"), []string{},
		},
		{
			"far from it in two steps",
			ahead(t, 1).part(diagram.Part{ID: "joint", Kind: diagram.Junction}).panels("annex").feed(2, "box > joint").feed(2, "joint > annex").protect(diagram.Type1, "box"),
			[]string{"error annex: NFPA 70:2023 section 230.67"},
		},
		{
			"a single panel",
			newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("main").feed(3, "supply > main"), missing,
		},
		{
			"no panel at all",
			newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}), []string{},
		},
		{
			"two service panels",
			newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("left", "right").
				feed(3, "supply > left", "supply > right").protect(diagram.Type2, "left"),
			[]string{"error right: NFPA 70:2023 section 230.67"},
		},
		{
			"the service disconnect is marked at the second board",
			house(t, diagram.Dwelling).alter("upper", func(p *diagram.Part) { p.Board.Service = true }),
			[]string{"error upper: NFPA 70:2023 section 230.67"},
		},
		{
			"a service disconnect below another",
			house(t, diagram.Dwelling).alter("upper", func(p *diagram.Part) { p.Board.Service = true }).alter("main", func(p *diagram.Part) { p.Board.Service = true }),
			missing,
		},
		{
			"behind a medium-voltage board",
			newSketch(t).later().supply(diagram.System{Wiring: diagram.Wye, Voltage: 13800, Earthing: diagram.Solid}, diagram.Exposure{Occupancy: diagram.Dwelling}).
				part(diagram.Part{ID: "switchgear", Kind: diagram.Switchboard}).panels("main").
				part(diagram.Part{ID: "step-down", Kind: diagram.Transformer, System: wyeOf208}).
				feed(3, "supply > switchgear", "switchgear > step-down:primary", "step-down:secondary > main"),
			missing,
		},
		{
			"a generator",
			newSketch(t).later().part(diagram.Part{ID: "set", Kind: diagram.Generator, System: splitOf240}).panels("main").feed(3, "set > main"), []string{},
		},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectRequired))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
}

// ahead is a service to a dwelling with a junction that far ahead of its panel, m.
func ahead(t *testing.T, metres float64) *sketch {
	return newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("main").
		part(diagram.Part{ID: "box", Kind: diagram.Junction}).feed(5, "supply > box").feed(metres, "box > main")
}

// Only boards with branch breakers of their own are asked for by 215.18.
func TestDwellingFeeder(t *testing.T) {
	tower := func(f func(*sketch)) *sketch {
		s := house(t, "").use("lower", diagram.DwellingUnitUse).protect(diagram.Type2, "main")
		f(s)
		return s
	}
	missing := []string{"error lower: NFPA 70:2023 section 215.18"}
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"nothing there", tower(func(*sketch) {}), missing},
		{"type 2", tower(func(s *sketch) { s.protect(diagram.Type2, "lower") }), []string{}},
		{"type 3", tower(func(s *sketch) { s.protect(diagram.Type3, "lower") }), missing},
		{"a load is no board", tower(func(s *sketch) { s.use("lower", "").use("lamp", diagram.DwellingUnitUse) }), []string{}},
		{
			"a board that feeds only boards for the same",
			tower(func(s *sketch) {
				s.use("upper", diagram.DwellingUnitUse).panels("flat").use("flat", diagram.DwellingUnitUse).feed(9, "upper > flat").protect(diagram.Type2, "flat", "lower")
			}),
			[]string{},
		},
		{
			"a board that feeds loads and boards for the same",
			tower(func(s *sketch) {
				s.panels("flat").use("flat", diagram.DwellingUnitUse).feed(9, "lower > flat").protect(diagram.Type2, "flat")
			}),
			missing,
		},
		{
			"what is beside the service equipment does not count",
			newSketch(t).later().supply(splitOf240, diagram.Exposure{}).panels("main", "lower").part(diagram.Part{ID: "box", Kind: diagram.Junction}).
				use("lower", diagram.DwellingUnitUse).feed(3, "supply > box", "box > main", "main > lower").protect(diagram.Type1, "box"),
			missing,
		},
		{
			"behind a board of another structure",
			tower(func(s *sketch) { s.alter("main", func(p *diagram.Part) { p.Board.Structure = true }) }),
			[]string{"error lower: NFPA 70:2023 section 225.42"},
		},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectRequired))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
}

func TestDwellingTexts(t *testing.T) {
	s := house(t, diagram.Dwelling).use("lower", diagram.DwellingUnitUse).alter("main", func(p *diagram.Part) { p.Name = "House panel" })
	found := s.about(analysis.SubjectRequired)
	if len(found) != 2 {
		t.Fatalf("got %q, want two", brief(found))
	}
	checkTexts(t, found[0],
		"lower, which supplies dwelling units, has no type 1 or 2 protector",
		"where feeders supply dwelling units, the board with the branch breakers has to have one, when it is new and when it is replaced; check whether it applies to your building",
		"place one in lower or right beside it, with an In of at least 10 kA",
		"NFPA 70:2023 section 215.18 (check your edition)")
	checkTexts(t, found[1],
		"House panel, the service equipment for dwelling units, has no type 1 or 2 protector",
		"a service that supplies dwelling units has to have one, when it is new and when its equipment is replaced; check whether it applies to your building",
		"place one in House panel or right beside it, or one at each of the boards next downstream, with an In of at least 10 kA",
		"NFPA 70:2023 section 230.67 (check your edition)")

	found = s.codes(diagram.Codes{NEC: diagram.NEC2020}).about(analysis.SubjectRequired)
	checkTexts(t, found[0],
		"House panel, the service equipment for dwelling units, has no type 1 or 2 protector",
		"a service that supplies dwelling units has to have one, when it is new and when its equipment is replaced; check whether it applies to your building",
		"place one in House panel or right beside it, or one at each of the boards next downstream",
		"NFPA 70:2020 section 230.67 (check your edition)")
	outside := s.codes(diagram.Codes{}).alter("lower", func(p *diagram.Part) { p.Board.Structure = true }).about(analysis.SubjectRequired)
	checkTexts(t, outside[0],
		"lower, which supplies dwelling units, has no type 1 or 2 protector",
		"where outside feeders supply dwelling units, the board with the branch breakers has to have one, when it is new and when it is replaced; check whether it applies to your building",
		"place one in lower or right beside it, with an In of at least 10 kA",
		"NFPA 70:2023 section 225.42 (check your edition)")
}
