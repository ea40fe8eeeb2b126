package analysis_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// system is a short way to write one.
func system(w diagram.Wiring, volts float64, neutral bool, e diagram.Earthing) diagram.System {
	return diagram.System{Wiring: w, Voltage: volts, Neutral: neutral, Earthing: e}
}

var (
	highLeg = diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	tt400   = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TT, Frequency: 50}
	corner  = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Corner, Frequency: 60}
)

// A board takes as many conductors of what arrives as it states. The voltages
// are those of the conductors that are left: to neutral where there is one line.
// Those to earth agree to half a volt, since the names are in whole volts.
func TestBoardsWithFewerConductors(t *testing.T) {
	const single, split, two, wye, delta, solid = diagram.Single, diagram.Split, diagram.TwoOfWye, diagram.Wye, diagram.Delta, diagram.Solid
	tests := []struct {
		name            string
		arrives, stated diagram.System
		want            string
		wiring          diagram.Wiring
		toEarth         float64
	}{
		{"a flat on one line of a riser", tns400, system(single, 230, true, diagram.TNS), "230 TN-S", single, 230},
		{"a flat on TT that states TN-S", tt400, system(single, 230, true, diagram.TNS), "230 TT", single, 230},
		{"a flat on TN-C that states TN-S", system(wye, 400, true, diagram.TNC), system(single, 230, true, diagram.TNS), "230 TN-S", single, 230},
		{"a nameplate of 240 V at 230 V", tns400, system(single, 240, true, ""), "230 TN-S", single, 230},
		{"lighting at 277 V", wye480, system(single, 277, true, solid), "277", single, 277},
		{"an apartment on two lines", wye208, system(two, 208, true, solid), "208/120 2-line", two, 120},
		{"one circuit of an apartment", system(two, 208, true, solid), system(single, 120, true, ""), "120", single, 120},
		{"lights on a high-leg delta", highLeg, system(split, 240, true, solid), "120/240", split, 120},
		{"one line of a high-leg delta", highLeg, system(single, 120, true, solid), "120", single, 120},
		{"three lines of a high-leg delta", highLeg, system(delta, 240, false, solid), "240 high leg 3-wire", diagram.HighLeg, 208},
		{"a heater on two lines of a split phase", split240, system(single, 240, false, solid), "240 2-wire", split, 120},
		{"a circuit of 120 V", split240, system(single, 120, true, ""), "120", single, 120},
		{"a motor control center without neutral", wye480, system(wye, 480, false, solid), "480 3-wire", wye, 277},
		{"a welder on two lines of a wye", tns400, system(single, 400, false, diagram.TNS), "400 2-wire TN-S", two, 230},
		{"two lines of an ungrounded delta", delta480, system(single, 480, false, diagram.Unearthed), "480 2-wire ungrounded", single, 480},
		{"two lines of a corner-grounded delta", corner, system(single, 480, false, diagram.Corner), "480 2-wire corner", single, 480},
		{"all of it", wye480, wye480, "480Y/277", wye, 277},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := newSheet(t).supply("u", test.arrives).stated("a", test.stated).boards("b").feed(1, "u > a", "a > b")
			topology := analysis.Trace(s.doc)
			for _, at := range []string{"a", "b"} {
				got := topology.Nodes[end(at)].System
				if got.String() != test.want || got.Wiring != test.wiring || math.Abs(got.HighestToEarth()-test.toEarth) > 0.5 || got.Frequency != test.arrives.Frequency {
					t.Errorf("%s: got %s (%s), %g V to earth, want %s (%s), %g", at, got, got.Wiring, got.HighestToEarth(), test.want, test.wiring, test.toEarth)
				}
			}
			if len(topology.Findings) > 0 {
				t.Errorf("got %q", topology.Findings[0].What)
			}
		})
	}
}

// What is no part of what arrives does not count, and is told.
func TestBoardsThatDoNotFit(t *testing.T) {
	const single, split, two, solid = diagram.Single, diagram.Split, diagram.TwoOfWye, diagram.Solid
	tests := []struct {
		name            string
		arrives, stated diagram.System
		why             string
	}{
		{"a split phase on a wye", wye208, system(split, 208, true, solid), "104\u00a0V to neutral and 120\u00a0V differ"},
		{"two lines of a wye on a high-leg delta", highLeg, system(two, 208, true, solid), "208\u00a0V between lines and 240\u00a0V differ"},
		{"the high leg to neutral", highLeg, system(single, 208, true, solid), "208\u00a0V to neutral and 120\u00a0V differ"},
		{"one line of a delta", delta480, system(single, 277, true, diagram.Unearthed), "it needs a neutral and gets none"},
		{"a line of 240 V where it is between lines", split240, system(single, 240, true, solid), "240\u00a0V to neutral and 120\u00a0V differ"},
		{"another earthing", it400, system(single, 400, false, diagram.TNS), "its earthing is stated as TN-S and arrives as IT"},
		{"more lines than a flat has", system(single, 230, true, diagram.TNS), tns400, "it needs 3 lines and gets 1"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			topology := analysis.Trace(newSheet(t).supply("u", test.arrives).stated("a", test.stated).feed(1, "u > a").doc)
			if got := topology.Nodes[end("a")].System; got != test.arrives {
				t.Errorf("got %s, want what arrives: %s", got, test.arrives)
			}
			if len(topology.Findings) != 1 || !strings.Contains(topology.Findings[0].Why, test.why) {
				t.Errorf("got %v, want one that says %q", topology.Findings, test.why)
			}
		})
	}
}

// A branch circuit drawn as a junction states its conductors as a board does.
func TestJunctionWithFewerConductors(t *testing.T) {
	s := newSheet(t).supply("u", split240).part(diagram.Part{ID: "j", Kind: diagram.Junction, System: system(diagram.Single, 120, true, "")})
	s.load("l", diagram.LoadData{}).feed(1, "u > j", "j > l")
	if got := analysis.Trace(s.doc).Nodes[end("l")].System.String(); got != "120" {
		t.Errorf("got %s, want 120", got)
	}
}
