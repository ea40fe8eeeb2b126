package fault_test

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// below is a main board on a supply of 12 kA, and 100 ft of 2 AWG copper in
// steel further a board that states its own system.
func below(t *testing.T, arrives, stated diagram.System) *sheet {
	t.Helper()
	return newSheet(t).supply("utility", arrives, diagram.SourceData{FaultCurrent: 12e3, XR: 3}).boards("main").
		part(diagram.Part{ID: "board", Name: "board", Kind: diagram.Panel, System: stated}).
		join("utility > main").feed(steel(100, 33.631e-6, 1), "main > board")
}

// Boards with fewer conductors against closed forms: half of the loop between
// two lines is Z1; one line and the neutral see (2 Z1 + Z0) / 3 of what feeds
// them, and both conductors. Where Z0 is Z1, that is Z1. Currents for which
// there are no conductors are none.
func TestFewerConductorsAgainstClosedForms(t *testing.T) {
	const current, xr = 12e3, 3.0
	na := complex(0.020, 0.0057) // Ω of a line
	root3 := math.Sqrt(3)
	star := func(volts float64) complex128 { return polar(volts/root3/current, xr) }
	half := func(z complex128) complex128 { return complex(1.5*real(z), 1.2*imag(z)) / 4 }
	solid := diagram.Solid
	for _, row := range []struct {
		name            string
		arrives, stated diagram.System
		want            func() amps
	}{
		{"lighting at 277 V", wye480, line277, func() amps {
			n := 277 / cmplx.Abs(star(480)+2*na)
			return amps{0, 0, n, n}
		}},
		{"an apartment on two lines", wye208, pair208, func() amps {
			n := root3 * 208 / cmplx.Abs(3*star(208)+6*na)
			return amps{0, 208 / 2 / cmplx.Abs(star(208)+na), n, n}
		}},
		{"a motor control center", wye480, star480, func() amps {
			three := 480 / root3 / cmplx.Abs(star(480)+na)
			return amps{three, three * root3 / 2, 0, root3 * 480 / cmplx.Abs(3*star(480)+6*na)}
		}},
		{"two lines without neutral", wye480, diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: solid}, func() amps {
			return amps{0, 480 / 2 / cmplx.Abs(star(480)+na), 0, root3 * 480 / cmplx.Abs(3*star(480)+6*na)}
		}},
		{"a circuit of 120 V", split240, line120, func() amps {
			n := 120 / cmplx.Abs(half(polar(240/current, xr))+2*na)
			return amps{0, 0, n, n}
		}},
		{"a heater of 240 V", split240, diagram.System{Wiring: diagram.Single, Voltage: 240, Earthing: solid}, func() amps {
			loop := polar(240/current, xr)
			return amps{0, 240 / cmplx.Abs(loop+2*na), 0, 120 / cmplx.Abs(half(loop)+2*na)}
		}},
		{"two lines of a delta", delta480, pair480, func() amps {
			return amps{0, 480 / 2 / cmplx.Abs(star(480)+na), 0, 0}
		}},
		{"two lines of a corner-grounded delta", corner480, diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Corner}, func() amps {
			two := 480 / 2 / cmplx.Abs(star(480)+na)
			return amps{0, two, 0, two}
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := below(t, row.arrives, row.stated).at("board")
			if !f.Known || f.Estimated {
				t.Errorf("got %+v, want it known and nothing taken", f)
			}
			check(t, f, row.want())
		})
	}
}

// The ordinary lines of a high-leg delta give a split phase, or one of them
// alone, what they give at a board with all three.
func TestFewerConductorsOfAHighLeg(t *testing.T) {
	whole := below(t, highLeg, diagram.System{}).at("board")
	check(t, below(t, highLeg, split240).at("board"), amps{0, whole.LineLine, whole.LineNeutral, whole.LineEarth})
	check(t, below(t, highLeg, line120).at("board"), amps{0, 0, whole.LineNeutral, whole.LineEarth})
}

// By the practice of IEC and on magnitudes alone the same holds: one line has
// what it has at a board with all three, but for 230 V that stand for 400 V / √3.
func TestFewerConductorsByEveryMethod(t *testing.T) {
	rounded := 230 / (400 / math.Sqrt(3))
	for _, points := range []bool{false, true} {
		of := func(stated diagram.System) analysis.Fault {
			s := below(t, tns400, stated)
			if points {
				s.byPoints()
			}
			return s.at("board")
		}
		near(t, "one line", of(single230).LineNeutral, of(diagram.System{}).LineNeutral*rounded, exact)
	}
}

// A motor on one line feeds a fault on all, and the working ends in what Solve
// finds and names the loop.
func TestFewerConductorsWithAMotor(t *testing.T) {
	with := below(t, wye480, line277).motor("fan", 5e3).join("board > fan")
	without := below(t, wye480, line277)
	for _, place := range []string{"main", "board"} {
		if got, bare := with.at(place).Highest(), without.at(place).Highest(); got <= bare || got > 1.1*bare {
			t.Errorf("%s: got %.0f A with a motor, %.0f A without", place, got, bare)
		}
	}
	f := explain(t, without, end("board"))
	found := false
	for _, step := range f.Working {
		found = found || strings.HasPrefix(step.Label, "half of the loop from line to neutral at main")
	}
	if !found {
		t.Errorf("the working does not name the loop: %v", lines(f.Working))
	}
}

// An open switch before a board of one line: what would flow with it closed.
func TestFewerConductorsBehindAnOpenSwitch(t *testing.T) {
	closed := below(t, wye480, line277)
	want := closed.at("board").LineNeutral
	f, _ := closed.doc.Feeder("main-board")
	f.Switch.Open = true
	got := closed.edit(func(tx *diagram.Tx) { tx.SetFeeder(f) }).at("board")
	if !got.Known || !strings.Contains(got.Why, "closed") {
		t.Errorf("got %+v, want what flows with the switch closed", got)
	}
	near(t, "line to neutral", got.LineNeutral, want, exact)
}

// Of a supply of which nothing is known, one line alone is not known either.
func TestFewerConductorsOfAnUnknownSupply(t *testing.T) {
	s := newSheet(t).supply("utility", wye480, diagram.SourceData{}).
		part(diagram.Part{ID: "board", Kind: diagram.Panel, System: line277}).feed(steel(100, 33.631e-6, 1), "utility > board")
	if f := s.at("board"); f.Known || f.Why == "" {
		t.Errorf("got %+v, want it not known", f)
	}
}
