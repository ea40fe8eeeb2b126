package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// grounds is a service board, a panel, and a board behind a transformer with
// another panel. The first one there has the bond unless one of the two is stated.
func grounds(t *testing.T, system diagram.System, data map[diagram.ID]diagram.BoardData) *sketch {
	s := newSketch(t).supply(system, diagram.Exposure{Occupancy: diagram.OtherUse})
	for _, id := range []diagram.ID{"main", "panel", "low", "desk"} {
		s.part(diagram.Part{ID: id, Kind: diagram.Panel, Board: data[id]})
	}
	if data["low"] == data["desk"] {
		s.alter("low", func(p *diagram.Part) { p.Board.Bonded = true })
	}
	second := system
	second.Voltage = 208
	return s.part(diagram.Part{ID: "step-down", Kind: diagram.Transformer, System: second}).
		feed(6, "supply > main").feed(20, "main > panel", "main > step-down:primary", "step-down:secondary > low", "low > desk")
}

func TestBonds(t *testing.T) {
	service := diagram.BoardData{Service: true}
	both := diagram.BoardData{Service: true, Bonded: true}
	bonded := diagram.BoardData{Bonded: true}
	outside := diagram.BoardData{Bonded: true, Structure: true}
	tncs, tt := wyeOf480, wyeOf480
	tncs.Earthing, tt.Earthing = diagram.TNCS, diagram.TT
	high := wyeOf480
	high.Earthing = diagram.Impedance
	threeWire := wyeOf480
	threeWire.Neutral = false
	type data = map[diagram.ID]diagram.BoardData
	tests := []struct {
		name   string
		system diagram.System
		boards data
		want   []string
	}{
		{"as it should be", wyeOf480, data{"main": both, "low": bonded}, []string{}},
		{"nothing stated", wyeOf480, nil, []string{}},
		{"no bond at the service", wyeOf480, data{"main": service}, []string{"note main: NFPA 70:2023 section 250.24"}},
		{"no bond on a system earthed by an impedance", high, data{"main": service}, []string{}},
		{"no neutral", threeWire, data{"main": service}, []string{}},
		{"a bond ahead of the service board", wyeOf480, data{"main": bonded, "panel": service}, []string{}},
		{"a second bond", wyeOf480, data{"main": both, "panel": bonded}, []string{"warning panel: NFPA 70:2023 section 250.24(A)(5)"}},
		{
			"a bond below the service, which has none", wyeOf480, data{"main": service, "panel": bonded},
			[]string{"warning panel: NFPA 70:2023 section 250.24(A)(5)", "note main: NFPA 70:2023 section 250.24"},
		},
		{"a second service board below a bonded one", wyeOf480, data{"main": both, "panel": both}, []string{"warning panel: NFPA 70:2023 section 250.24(A)(5)"}},
		{"a service board below a bond that is none", wyeOf480, data{"main": bonded, "panel": both}, []string{}},
		{"a service board below a service board without a bond", wyeOf480, data{"main": service, "panel": both}, []string{"note main: NFPA 70:2023 section 250.24"}},
		{"a service board in another structure", wyeOf480, data{"main": both, "panel": {Service: true, Bonded: true, Structure: true}}, []string{"note panel: NFPA 70:2023 section 250.32(B)"}},
		{"TN-C-S, a second service board", tncs, data{"main": both, "panel": both}, []string{"warning panel: IEC 60364-5-54:2011 clause 543.4.3"}},
		{"the only bond that is known", wyeOf480, data{"panel": bonded}, []string{}},
		{"a second bond behind a transformer", wyeOf480, data{"main": both, "low": bonded, "desk": bonded}, []string{"warning desk: NFPA 70:2023 section 250.24(A)(5)"}},
		{"a bond at the second board behind a transformer", wyeOf480, data{"main": both, "desk": bonded}, []string{}},
		{"a bond in another structure", wyeOf480, data{"main": both, "panel": outside}, []string{"note panel: NFPA 70:2023 section 250.32(B)"}},
		{"TN-C-S, second bond", tncs, data{"main": both, "panel": bonded}, []string{"warning panel: IEC 60364-5-54:2011 clause 543.4.3"}},
		{"TN-C-S, split below the service", tncs, data{"main": service, "panel": bonded}, []string{}},
		{"TT", tt, data{"main": both, "panel": bonded}, []string{}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(grounds(t, test.system, test.boards).about(analysis.SubjectEarthing))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
}

func TestBondTexts(t *testing.T) {
	type data = map[diagram.ID]diagram.BoardData
	first := func(system diagram.System, boards data) analysis.Finding {
		t.Helper()
		found := grounds(t, system, boards).about(analysis.SubjectEarthing)
		if len(found) == 0 {
			t.Fatal("found nothing")
		}
		return found[0]
	}
	const returns = "through a second bond, neutral current returns over the protective conductors"
	const opened = "check whether the bond is there; if so, have a qualified person remove it"
	checkTexts(t, first(wyeOf480, data{"main": {Service: true}}),
		"main is service equipment, and its neutral is not shown bonded",
		"a solidly grounded service bonds its neutral there; without the bond a surge appears between neutral and ground",
		"look for the main bonding jumper, and mark the bond here if it is there", "NFPA 70:2023 section 250.24 (check your edition)")
	checkTexts(t, first(wyeOf480, data{"main": {Service: true, Bonded: true}, "panel": {Bonded: true}}),
		"panel bonds the neutral a second time: main above it does already", returns, opened,
		"NFPA 70:2023 section 250.24(A)(5) (check your edition)")
	checkTexts(t, first(wyeOf480, data{"main": {Service: true}, "panel": {Bonded: true}}),
		"panel bonds the neutral, and the service disconnect is at main above it", returns, opened,
		"NFPA 70:2023 section 250.24(A)(5) (check your edition)")
	checkTexts(t, first(wyeOf480, data{"main": {Service: true, Bonded: true}, "panel": {Bonded: true, Structure: true}}),
		"panel bonds the neutral a second time: main above it does already", returns,
		"check whether the feeder has an equipment grounding conductor: only an old feeder without one may have the bond",
		"NFPA 70:2023 section 250.32(B) (check your edition)")
	checkTexts(t, first(wyeOf480, data{"main": {Service: true, Bonded: true}, "panel": {Service: true, Bonded: true}}),
		"panel bonds the neutral a second time: main above it does already", returns,
		"check which of the two holds the service disconnect, and mark only that one; if the bond is at both, have a qualified person remove the lower one",
		"NFPA 70:2023 section 250.24(A)(5) (check your edition)")
	checkTexts(t, first(tnsOf400, data{"main": {Bonded: true}, "panel": {Bonded: true}}),
		"panel bonds the neutral a second time: main above it does already", returns, opened,
		"IEC 60364-5-54:2011 clause 543.4.3 (from memory; check your edition)")
}
