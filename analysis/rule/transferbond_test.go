package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// standby is a service and a generator with a board each, on a transfer switch
// with a board behind it.
func standby(t *testing.T, system diagram.System, transfer diagram.TransferData, main, set diagram.BoardData) *sketch {
	return newSketch(t).supply(system, diagram.Exposure{}).
		part(diagram.Part{ID: "set", Kind: diagram.Generator, System: system}).
		part(diagram.Part{ID: "main", Kind: diagram.Panel, Board: main}).
		part(diagram.Part{ID: "genset", Kind: diagram.Panel, Board: set}).
		part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch, Transfer: transfer}).panels("behind").
		feed(5, "supply > main", "main > switch:normal", "set > genset", "genset > switch:emergency", "switch:load > behind")
}

func TestTransferBond(t *testing.T) {
	solid, switched := diagram.TransferData{}, diagram.TransferData{SwitchesNeutral: true}
	service, bonded, none := diagram.BoardData{Service: true, Bonded: true}, diagram.BoardData{Bonded: true}, diagram.BoardData{}
	tt, threeWire := tnsOf400, wyeOf480
	tt.Earthing, threeWire.Neutral = diagram.TT, false
	unstated := wyeOf480
	unstated.Earthing = ""
	const code = "warning switch: NFPA 70:2023 sections 250.30 and 250.6"
	thrown := diagram.TransferData{Position: diagram.ToEmergency}
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"neutral solid, bonded at the service", standby(t, wyeOf480, solid, service, none), []string{}},
		{"neutral solid, bonded twice", standby(t, wyeOf480, solid, service, bonded), []string{code}},
		{"the same in the other position", standby(t, wyeOf480, thrown, service, bonded), []string{code}},
		{"neutral solid, no bond known on the normal side", standby(t, wyeOf480, solid, none, bonded), []string{}},
		{"neutral switched, bonded twice", standby(t, wyeOf480, switched, service, bonded), []string{}},
		{"neutral switched, no bond at the generator", standby(t, wyeOf480, switched, service, none), []string{code}},
		{"no neutral", standby(t, threeWire, solid, service, bonded), []string{}},
		{"TN-S", standby(t, tnsOf400, solid, service, bonded), []string{"warning switch: IEC 60364-4-44:2007 clause 444.4.6"}},
		{"TN-S, switched, no bond at the generator", standby(t, tnsOf400, switched, service, none), []string{"warning switch: IEC 60364-4-44:2007 clause 444.4.6"}},
		{"TT", standby(t, tt, solid, service, bonded), []string{}},
		{
			"neutral switched, no board at the generator",
			newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "set", Kind: diagram.Generator, System: wyeOf480}).
				part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch, Transfer: switched}).panels("behind").
				feed(5, "supply > switch:normal", "set > switch:emergency", "switch:load > behind"),
			[]string{},
		},
		{
			"the same, its earthing not stated",
			newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "set", Kind: diagram.Generator, System: unstated}).
				part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch, Transfer: switched}).panels("behind").
				feed(5, "supply > switch:normal", "set > switch:emergency", "switch:load > behind"),
			[]string{code},
		},
		{
			"both sides from one service",
			newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "main", Kind: diagram.Panel, Board: service}).
				part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch}).panels("behind").
				feed(5, "supply > main", "main > switch:normal", "main > switch:emergency", "switch:load > behind"),
			[]string{},
		},
		{
			"nothing on the emergency side",
			newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch, Transfer: switched}).panels("behind").
				feed(5, "supply > switch:normal", "switch:load > behind"),
			[]string{},
		},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectEarthing))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
	const source = "NFPA 70:2023 sections 250.30 and 250.6 (from memory; check your edition)"
	checkTexts(t, standby(t, wyeOf480, solid, service, bonded).about(analysis.SubjectEarthing)[0],
		"The neutral is bonded at main and at genset, and switch does not switch it",
		"the neutral then has two bonds at a time, and part of its current returns over the protective conductors",
		"check whether both bonds are there; if so, have a qualified person remove the one at genset, or use a transfer switch that switches the neutral", source)
	checkTexts(t, standby(t, wyeOf480, switched, service, none).about(analysis.SubjectEarthing)[0],
		"switch switches the neutral, and no bond is shown between it and set",
		"while the generator runs, nothing holds its neutral to earth: an earth fault opens no breaker, and a surge appears between neutral and earth",
		"look for the bond of the generator; state it at genset if it is there or in the generator itself, else have a qualified person install it", source)
}
