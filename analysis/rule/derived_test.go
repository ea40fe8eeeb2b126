package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// secondary is a service and a transformer of the system with a board behind it.
func secondary(t *testing.T, system diagram.System, board diagram.BoardData) *sketch {
	return newSketch(t).supply(wyeOf480, diagram.Exposure{}).
		part(diagram.Part{ID: "main", Kind: diagram.Panel, Board: diagram.BoardData{Service: true, Bonded: true}}).
		part(diagram.Part{ID: "low", Kind: diagram.Panel, Board: board}).
		part(diagram.Part{ID: "T1", Kind: diagram.Transformer, System: system}).
		feed(6, "supply > main", "main > T1:primary", "T1:secondary > low")
}

// island is a generator of the system with a board.
func island(t *testing.T, system diagram.System, board diagram.BoardData) *sketch {
	return newSketch(t).part(diagram.Part{ID: "set", Kind: diagram.Generator, System: system}).
		part(diagram.Part{ID: "low", Kind: diagram.Panel, Board: board}).feed(6, "set > low")
}

func TestDerivedBond(t *testing.T) {
	earthed := func(e diagram.Earthing) diagram.System { s := wyeOf208; s.Earthing = e; return s }
	none, bonded, service := diagram.BoardData{}, diagram.BoardData{Bonded: true}, diagram.BoardData{Service: true, Bonded: true}
	threeWire := earthed("")
	threeWire.Neutral = false
	high := earthed("")
	high.Voltage = 4160
	const code = ": NFPA 70:2023 section 250.30"
	auto := func(p *diagram.Part) { p.Transformer.Auto = true }
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"earthing not stated, no bond", secondary(t, earthed(""), none), []string{"warning T1" + code}},
		{"earthing not stated, bonded", secondary(t, earthed(""), bonded), []string{}},
		{"solid, no bond shown", secondary(t, earthed(diagram.Solid), none), []string{"note T1" + code}},
		{"solid, bonded", secondary(t, earthed(diagram.Solid), bonded), []string{}},
		{"solid, bonded at the second board", secondary(t, earthed(diagram.Solid), none).part(diagram.Part{ID: "desk", Kind: diagram.Panel, Board: bonded}).feed(9, "low > desk"), []string{}},
		{"said to be ungrounded", secondary(t, earthed(diagram.Unearthed), none), []string{}},
		{"grounded by an impedance", secondary(t, earthed(diagram.Impedance), none), []string{}},
		{"no neutral", secondary(t, threeWire, none), []string{}},
		{"one winding for both sides", secondary(t, earthed(""), none).alter("T1", auto), []string{}},
		{"high voltage", secondary(t, high, none), []string{}},
		{"the transformer of the supply", newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "T1", Kind: diagram.Transformer, System: wyeOf208}).
			part(diagram.Part{ID: "low", Kind: diagram.Panel, Board: service}).feed(6, "supply > T1:primary", "T1:secondary > low"), []string{}},
		{"solid, no board to state it at", newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "T1", Kind: diagram.Transformer, System: wyeOf208}).
			part(diagram.Part{ID: "lamp", Kind: diagram.Load}).feed(6, "supply > T1:primary", "T1:secondary > lamp"), []string{}},
		{"not stated, no board", newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "T1", Kind: diagram.Transformer, System: earthed("")}).
			part(diagram.Part{ID: "lamp", Kind: diagram.Load}).feed(6, "supply > T1:primary", "T1:secondary > lamp"), []string{"warning T1" + code}},
		{"by IEC", secondary(t, earthed(""), none).codes(diagram.Codes{Practice: diagram.IECPractice}), []string{}},
		{"a generator alone", island(t, earthed(""), none), []string{"warning set" + code}},
		{"a generator alone, bonded", island(t, earthed(""), bonded), []string{}},
		{"a generator alone, said to be solid", island(t, earthed(diagram.Solid), none), []string{"note set" + code}},
		{"a generator whose neutral the service bonds", standby(t, wyeOf480, diagram.TransferData{}, service, none), []string{}},
		{
			"a transformer whose neutral goes unswitched to a bonded service",
			secondary(t, wyeOf480, none).part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch}).panels("behind").
				feed(5, "main > switch:normal", "low > switch:emergency", "switch:load > behind"), []string{},
		},
		{
			"the same with the neutral switched",
			secondary(t, wyeOf480, none).part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{SwitchesNeutral: true}}).panels("behind").
				feed(5, "main > switch:normal", "low > switch:emergency", "switch:load > behind"), []string{"note T1" + code},
		},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectEarthing))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
	const why, source = "without the bond nothing holds its neutral to ground: a ground fault opens no breaker, and a surge appears between neutral and ground", "NFPA 70:2023 section 250.30 (check your edition)"
	checkTexts(t, secondary(t, earthed(""), none).about(analysis.SubjectEarthing)[0],
		"No bond is shown for the secondary of T1, a separately derived system, and it is not said to be ungrounded, either", why,
		"look for the system bonding jumper, in T1 itself or at low: mark the bond at low if it is there, else have a qualified person install it; if the system is ungrounded, say so at T1", source)
	checkTexts(t, island(t, earthed(diagram.Solid), none).about(analysis.SubjectEarthing)[0],
		"No bond is shown for the neutral of set, a separately derived system, and it is said to be solidly grounded", why,
		"look for the system bonding jumper, in set itself or at low: mark the bond at low if it is there, else have a qualified person install it; if the system is ungrounded, say so at set", source)
}
