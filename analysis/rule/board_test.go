package rule_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// shop is a supply with a service board and a panel of the data.
func shop(t *testing.T, board diagram.BoardData) *sketch {
	return newSketch(t).supply(wyeOf480, diagram.Exposure{}).
		part(diagram.Part{ID: "main", Kind: diagram.Switchboard, Board: diagram.BoardData{Service: true, Bonded: true}}).
		part(diagram.Part{ID: "panel", Kind: diagram.Panel, Board: board}).
		feed(6, "supply > main").feed(20, "main > panel")
}

func TestBoardData(t *testing.T) {
	tests := []struct {
		name  string
		board diagram.BoardData
		want  []string
	}{
		{"nothing stated", diagram.BoardData{}, []string{}},
		{"as many free as there are", diagram.BoardData{Spaces: 12, FreeSpaces: 12}, []string{}},
		{"more free than there are", diagram.BoardData{Spaces: 12, FreeSpaces: 13}, []string{"warning panel: "}},
		{"number of spaces not known", diagram.BoardData{FreeSpaces: 3}, []string{}},
		{"main breaker of the rating", diagram.BoardData{Rating: 225, MainBreaker: 225}, []string{}},
		{"main breaker above the rating", diagram.BoardData{Rating: 225, MainBreaker: 400}, []string{"warning panel: NFPA 70:2023 section 408.36"}},
		{"a bus of one ampere", diagram.BoardData{Rating: 1, MainBreaker: 2}, []string{"warning panel: NFPA 70:2023 section 408.36"}},
		{"rating not known", diagram.BoardData{MainBreaker: 400}, []string{}},
		{"lugs only", diagram.BoardData{Rating: 225}, []string{}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(shop(t, test.board).about(analysis.SubjectBreaker))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
}

func TestBoardTexts(t *testing.T) {
	found := shop(t, diagram.BoardData{Spaces: 12, FreeSpaces: 20}).about(analysis.SubjectBreaker)
	checkTexts(t, found[0], "panel has 20 free spaces of 12",
		"no more can be free than there are: whether the breaker of a protector fits is not known", "count both again", "")
	s := shop(t, diagram.BoardData{Rating: 100, MainBreaker: 125})
	const what = "panel has a main breaker of 125\u00a0A on a bus of 100\u00a0A"
	const why = "the breaker lets more flow than the bus carries"
	const remedy = "read both off the nameplates; if they are right, have it looked at before anything is added"
	checkTexts(t, s.about(analysis.SubjectBreaker)[0], what, why, remedy, "NFPA 70:2023 section 408.36 (check your edition)")
	s.codes(diagram.Codes{Practice: diagram.IECPractice})
	checkTexts(t, s.about(analysis.SubjectBreaker)[0], what, why, remedy, "common practice, no source")
}

func TestMarkedFault(t *testing.T) {
	known := func(a float64) analysis.Fault { return analysis.Fault{Known: true, ThreePhase: a, LineNeutral: a / 2} }
	tests := []struct {
		name   string
		marked float64
		fault  analysis.Fault
		want   []string
	}{
		{"equal", 18e3, known(18e3), []string{}},
		{"not marked", 0, known(18e3), []string{}},
		{"not known", 18e3, analysis.Fault{ThreePhase: 40e3}, []string{}},
		{"none can flow", 18e3, known(0), []string{}},
		{"a fifth more", 12e3, known(10e3), []string{}},
		{"a fifth less", 10e3, known(12e3), []string{}},
		{"marked higher", 12.1e3, known(10e3), []string{"warning panel: NFPA 70:2023 section 110.24"}},
		{"computed higher", 10e3, known(12.1e3), []string{"warning panel: NFPA 70:2023 section 110.24"}},
	}
	for _, test := range tests {
		s := shop(t, diagram.BoardData{FaultCurrent: test.marked})
		got := s.aboutWith(analysis.SubjectFault, map[diagram.End]analysis.Fault{{Part: "panel"}: test.fault})
		if diff := cmp.Diff(test.want, brief(got)); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
	if got := shop(t, diagram.BoardData{FaultCurrent: 18e3}).about(analysis.SubjectFault); len(got) > 0 {
		t.Errorf("without fault currents: got %q", brief(got))
	}
}

func TestMarkedFaultTexts(t *testing.T) {
	faults := map[diagram.End]analysis.Fault{{Part: "panel"}: {Known: true, ThreePhase: 24e3, Why: "from supply"}}
	s := shop(t, diagram.BoardData{FaultCurrent: 18e3})
	got := s.aboutWith(analysis.SubjectFault, faults)[0]
	const remedy = "go by the higher of the two, 24 kA, for short-circuit ratings until it is clear which is right"
	checkTexts(t, got, "panel is marked with a fault current of 18 kA, and 24 kA is computed",
		"the mark is old, or the supply or a feeder is not as drawn", remedy,
		"NFPA 70:2023 section 110.24 (check your edition); how far apart they may be is common practice, no source")
	if apart := got.Working[2]; math.Abs(apart.Result-100.0/3) > 1e-9 || apart.Unit != "%" || apart.Label != "apart" {
		t.Errorf("apart by %g %s, want a third", apart.Result, apart.Unit)
	}

	faults[diagram.End{Part: "panel"}] = analysis.Fault{Known: true, ThreePhase: 12e3, Estimated: true}
	got = s.codes(diagram.Codes{Practice: diagram.IECPractice}).aboutWith(analysis.SubjectFault, faults)[0]
	checkTexts(t, got, "panel is marked with a fault current of 18 kA, and 12 kA is computed",
		"the mark is old, or the supply or a feeder is not as drawn; the computed one rests on usual figures",
		"go by the higher of the two, 18 kA, for short-circuit ratings until it is clear which is right", "common practice, no source")
}
