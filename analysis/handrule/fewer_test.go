package handrule_test

import (
	"math"
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

var (
	line277 = diagram.System{Wiring: diagram.Single, Voltage: 277, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	line120 = diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	pair208 = diagram.System{Wiring: diagram.TwoOfWye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	star480 = diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Solid, Frequency: 60}
	pair480 = diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Solid, Frequency: 60}
	pair400 = diagram.System{Wiring: diagram.Single, Voltage: 400, Earthing: diagram.TNS, Frequency: 50}
	pair230 = diagram.System{Wiring: diagram.Single, Voltage: 230, Earthing: diagram.IT, Frequency: 50}
)

// below is a main board, and 10 m further a board that states its own system.
func below(t *testing.T, arrives, stated diagram.System) *sheet {
	t.Helper()
	return newSheet(t).supply("u", arrives).boards("a").
		part(diagram.Part{ID: "b", Kind: diagram.Panel, System: stated, Withstand: category(3)}).feed(3, "u > a").feed(10, "a > b")
}

// A board has the modes of the conductors that lead to it and no others, and
// withstands what its voltage to earth asks for (IEC 60664-1:2007 table F.1).
func TestModesOfBoardsWithFewerConductors(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	tests := []struct {
		name            string
		arrives, stated diagram.System
		modes           []diagram.Mode
		withstand       float64
	}{
		{"a flat", tns400, single230, []diagram.Mode{ln, lg, ng}, 4000},
		{"lighting at 277 V", wye480, line277, []diagram.Mode{ln, lg, ng}, 4000},
		{"an apartment", wye208, pair208, []diagram.Mode{ln, lg, ng, ll}, 2500},
		{"lights on a high-leg delta: 120 V, not 208 V", highLeg, split240, []diagram.Mode{ln, lg, ng, ll}, 2500},
		{"a motor control center", wye480, star480, []diagram.Mode{lg, ll}, 4000},
		{"two lines", wye480, pair480, []diagram.Mode{lg, ll}, 4000},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var got []diagram.Mode
			for _, l := range below(t, test.arrives, test.stated).solve().Buses["b"].Levels {
				got = append(got, l.Mode)
				if l.Withstand != test.withstand {
					t.Errorf("%s: withstands %g V, want %g", l.Mode, l.Withstand, test.withstand)
				}
			}
			if slices.Sort(got); !slices.Equal(got, test.modes) {
				t.Errorf("got %v, want %v", got, test.modes)
			}
		})
	}
}

// A protector upstream on all lines covers a board on some of them, 10 m at
// 50 V/m lower; one of its own counts, and one that cannot be right does not.
func TestCoverOfBoardsWithFewerConductors(t *testing.T) {
	const ln, lg, ll = diagram.LineNeutral, diagram.LineEarth, diagram.LineLine
	tests := []struct {
		name   string
		sheet  *sheet
		mode   diagram.Mode
		volts  float64 // 0 where nothing holds it
		reason analysis.Reason
	}{
		{"a flat by the riser's", below(t, tns400, single230).protect("p", "a", tns400, full), ln, 1700, analysis.Distance},
		{"a flat by its own", below(t, tns400, single230).protect("p", "b", single230, levels{1200, 1200, 1200, 0}), ln, 1200, analysis.AtProtector},
		{"lighting by its own", below(t, wye480, line277).protect("p", "b", line277, levels{1200, 1200, 1200, 0}), lg, 1200, analysis.AtProtector},
		{"lighting by one for three lines", below(t, wye480, line277).protect("p", "b", wye480, full), ln, 1200, analysis.AtProtector},
		{"lighting by one for 120 V", below(t, wye480, line277).protect("p", "b", line120, levels{700, 700, 700, 0}), ln, 0, analysis.WrongVoltage},
		{"an apartment by one for 120/240 V", below(t, wye208, pair208).protect("p", "b", split240, levels{700, 700, 700, 1200}), ll, 1200, analysis.AtProtector},
		{"an apartment by one for one line", below(t, wye208, pair208).protect("p", "b", line120, levels{700, 700, 700, 0}), ln, 0, analysis.WrongPhases},
		{"lights on a high-leg delta by their own", below(t, highLeg, split240).protect("p", "b", split240, levels{700, 700, 700, 1200}), lg, 700, analysis.AtProtector},
		{"a motor control center by its own", below(t, wye480, star480).protect("p", "b", star480, levels{0, 1200, 0, 2000}), lg, 1200, analysis.AtProtector},
		{"a motor control center by L-N of the main board and the sum", below(t, wye480, star480).protect("p", "a", wye480, levels{900, 0, 300, 0}), lg, 1700, analysis.Distance},
		{"480 V on two lines: 250 V to earth do not stand 277 V", below(t, wye480, pair480).attach(mcov(protector("p", "b", pair480, levels{0, 1200, 0, 0}), lg, 250)), lg, 0, analysis.WrongVoltage},
		{"480 V on two lines: 320 V do", below(t, wye480, pair480).attach(mcov(protector("p", "b", pair480, levels{0, 1200, 0, 0}), lg, 320)), lg, 1200, analysis.AtProtector},
		{"240 V of a split phase: 130 V stand 120 V", below(t, split240, diagram.System{Wiring: diagram.Single, Voltage: 240}).attach(mcov(protector("p", "b", split240, levels{0, 700, 0, 0}), lg, 130)), lg, 700, analysis.AtProtector},
		{"a supply of 400 V on two lines: 225 V do not stand 230 V", newSheet(t).supply("u", pair400).boards("b").feed(3, "u > b").attach(mcov(protector("p", "b", pair400, levels{0, 1200, 0, 0}), lg, 225)), lg, 0, analysis.WrongVoltage},
		{"2+0 for 230 V on two lines of IT", newSheet(t).supply("u", pair230).boards("b").feed(3, "u > b").attach(mcov(mcov(protector("p", "b", single230, levels{0, 1250, 1500, 0}), lg, 275), diagram.NeutralEarth, 275)), lg, 1500, analysis.AtProtector},
		{"the same where nothing tells what stands N-G", newSheet(t).supply("u", pair230).boards("b").feed(3, "u > b").attach(mcov(protector("p", "b", single230, levels{0, 1250, 1500, 0}), lg, 275)), lg, 0, analysis.WrongEarthing},
		{"1+1 for 230 V between those lines", newSheet(t).supply("u", pair230).boards("b").feed(3, "u > b").protect("p", "b", single230, levels{1300, 1250, 1250, 0}), ll, 1300, analysis.AtProtector},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := level(t, test.sheet.solve(), "b", test.mode)
			if got.Known != (test.volts > 0) || math.Abs(got.Volts-test.volts) > 1e-6 || got.Reason != test.reason {
				t.Errorf("got %v, %g V, %s (%s); want %g V, %s", got.Known, got.Volts, got.Reason, got.Why, test.volts, test.reason)
			}
		})
	}
}
