package fault_test

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"clampline/diagram"
)

const root3 = 1.7320508075688772

// A supply of 20 kA at 480 V with X/R 5, and a transformer of 75 kVA, 4 %, X/R
// 2, by its windings: what three phases, and line and neutral see.
func TestWindings(t *testing.T) {
	supply := polar(480/root3/20e3, 5)
	z480 := supply
	z208 := supply * complex(math.Pow(208.0/480, 2), 0)
	own208 := polar(0.04*208*208/75e3, 2)
	own480 := polar(0.04*480*480/75e3, 2)
	wye240 := diagram.System{Wiring: diagram.Wye, Voltage: 240, Earthing: diagram.Unearthed}
	pass := func(z1, own complex128) float64 { // Z0 passes on
		return 3 * 208 / root3 / cmplx.Abs(3*z1+3*own)
	}
	for _, row := range []struct {
		name               string
		primary, secondary diagram.System
		auto               bool
		threePhase         float64
		neutral, earth     float64
	}{
		{"delta to earthed star begins the way back anew", delta480, wye208, false,
			208 / root3 / cmplx.Abs(z208+own208), 3 * 208 / root3 / cmplx.Abs(2*(z208+own208)+own208), -1},
		{"star to star with both neutrals passes it on", wye480, wye208, false, 208 / root3 / cmplx.Abs(z208+own208), pass(z208, own208), -1},
		{"star without neutral to star begins it anew", star480, wye208, false,
			208 / root3 / cmplx.Abs(z208+own208), 3 * 208 / root3 / cmplx.Abs(2*(z208+own208)+own208), -1},
		{"autotransformer passes it on", wye480, wye208, true, 208 / root3 / cmplx.Abs(z208+own208), pass(z208, own208), -1},
		{"delta to delta has none", delta480, delta480, false, 480 / root3 / cmplx.Abs(z480+own480), 0, 0},
		{"delta to corner", delta480, corner480, false, 480 / root3 / cmplx.Abs(z480+own480), 0, 480.0 / 2 / cmplx.Abs(z480+own480)},
		{"delta to star with resistance", delta480, hrg480, false, 480 / root3 / cmplx.Abs(z480+own480), 0, 0},
		{"delta to star without earth", delta480, wye240, false,
			240 / root3 / cmplx.Abs(supply/4+polar(0.04*240*240/75e3, 2)), 0, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newSheet(t).
				supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
				transformer("t", row.primary, row.secondary, diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 2, Auto: row.auto}).
				join("utility > t:primary")
			f := s.at("t:secondary")
			if row.earth < 0 {
				row.earth = row.neutral
			}
			check(t, f, amps{row.threePhase, row.threePhase * root3 / 2, row.neutral, row.earth})
			if f.LineEarth == 0 && (len(f.Assumptions) != 1 || f.Assumptions[0].Record != "t") {
				t.Errorf("got %v, want the reason why none flows to earth", f.Assumptions)
			}
		})
	}
}

// A star with neutral on the primary and a delta behind it feed a fault to
// earth on the primary.
func TestEarthingTransformer(t *testing.T) {
	s := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 5e3, XR: 4}).boards("bus").join("utility > bus")
	before := s.at("bus")
	s.transformer("t", wye480, delta480, diagram.TransformerData{Power: 300e3, Impedance: 4, XR: 4}).join("bus > t:primary")
	after := s.at("bus")
	z := polar(480/root3/5e3, 4)
	own := polar(0.04*480*480/300e3, 4)
	near(t, "three-phase", after.ThreePhase, before.ThreePhase, exact)
	near(t, "line to earth", after.LineEarth, root3*480/cmplx.Abs(2*z+1/(1/z+1/own)), exact)
}

// Fed at its secondary a transformer does the same the other way.
func TestFedAtSecondary(t *testing.T) {
	forward := newSheet(t).supply("utility", wye208, diagram.SourceData{FaultCurrent: 8e3, XR: 2}).
		transformer("t", wye208, wye480, diagram.TransformerData{Power: 45e3, Impedance: 4, XR: 2}).
		join("utility > t:primary")
	backward := newSheet(t).supply("utility", wye208, diagram.SourceData{FaultCurrent: 8e3, XR: 2}).
		transformer("t", wye480, wye208, diagram.TransformerData{Power: 45e3, Impedance: 4, XR: 2}).
		join("utility > t:secondary")
	want, got := forward.at("t:secondary"), backward.at("t:primary")
	check(t, got, amps{want.ThreePhase, want.LineLine, want.LineNeutral, want.LineEarth})

	// a delta behind, begun anew
	star := newSheet(t).supply("utility", wye208, diagram.SourceData{FaultCurrent: 8e3, XR: 2}).
		transformer("t", delta480, wye208, diagram.TransformerData{Power: 45e3, Impedance: 4, XR: 2}).
		join("utility > t:secondary")
	z := polar(208/root3/8e3, 2)*complex(math.Pow(480.0/208, 2), 0) + polar(0.04*480*480/45e3, 2)
	three := 480 / root3 / cmplx.Abs(z)
	check(t, star.at("t:primary"), amps{three, three * root3 / 2, 0, 0})

	// a star behind a delta: its way back begins anew with the windings at its own voltage
	anew := newSheet(t).supply("utility", wye208, diagram.SourceData{FaultCurrent: 8e3, XR: 2}).
		transformer("t", wye480, diagram.System{Wiring: diagram.Delta, Voltage: 208}, diagram.TransformerData{Power: 45e3, Impedance: 4, XR: 2}).
		join("utility > t:secondary")
	neutral := root3 * 480 / cmplx.Abs(2*z+polar(0.04*480*480/45e3, 2))
	check(t, anew.at("t:primary"), amps{three, three * root3 / 2, neutral, neutral})
}

// Single-phase transformers of 25 kVA, 3 %, X/R 0.8 on all that they can hang
// on. A loop between two lines of three phases is 2 Z1, one to the neutral (2 Z1
// + Z0) / 3; half of a centre-tapped winding has 1.5 R and 1.2 X on its base.
func TestSinglePhaseTransformers(t *testing.T) {
	three := polar(480/root3/20e3, 5) // Z1 of the supply; Z0 is the same
	own := func(volts float64) complex128 { return polar(0.03*volts*volts/25e3, 0.8) }
	half := func(z complex128) complex128 { return complex(1.5*real(z), 1.2*imag(z)) / 4 }
	squared := func(a, b float64) complex128 { return complex(a*a/(b*b), 0) }
	for _, row := range []struct {
		name                       string
		supply, primary, secondary diagram.System
		want                       func() amps
	}{
		{"two lines of three phases to split phase", wye480, pair480, split240, func() amps {
			above := 2 * three * squared(240, 480)
			n := 120 / cmplx.Abs(above/4+half(own(240)))
			return amps{0, 240 / cmplx.Abs(above+own(240)), n, n}
		}},
		{"two lines of three phases to one line", wye480, pair480, line120, func() amps {
			n := 120 / cmplx.Abs(2*three*squared(120, 480)+own(120))
			return amps{0, 0, n, n}
		}},
		{"line and neutral to split phase", wye480, line277, split240, func() amps {
			above := three * squared(240, 480/root3)
			n := 120 / cmplx.Abs(above/4+half(own(240)))
			return amps{0, 240 / cmplx.Abs(above+own(240)), n, n}
		}},
		{"split phase to one line", split240, split240, line120, func() amps {
			loop := polar(240/20e3, 5)
			n := 120 / cmplx.Abs(loop*squared(120, 240)+own(120))
			return amps{0, 0, n, n}
		}},
		{"half of split phase to one line", split240, line120, line120, func() amps {
			loop := polar(240/20e3, 5)
			n := 120 / cmplx.Abs(half(loop)+own(120))
			return amps{0, 0, n, n}
		}},
		{"one line to split phase", line120, line120, split240, func() amps {
			loop := polar(120/20e3, 5) * squared(240, 120)
			n := 120 / cmplx.Abs(loop/4+half(own(240)))
			return amps{0, 240 / cmplx.Abs(loop+own(240)), n, n}
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newSheet(t).
				supply("utility", row.supply, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
				transformer("t", row.primary, row.secondary, diagram.TransformerData{Power: 25e3, Impedance: 3, XR: 0.8}).
				boards("panel").
				join("utility > t:primary", "t:secondary > panel")
			check(t, s.at("panel"), row.want())
		})
	}
}

// What is not known of a transformer is taken at the low end of what is usual,
// and says so.
func TestUsualTransformer(t *testing.T) {
	at := func(data diagram.TransformerData) (float64, int, bool) {
		s := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
			transformer("t", delta480, wye208, data).join("utility > t:primary")
		f := s.at("t:secondary")
		return f.ThreePhase, len(f.Assumptions), f.Estimated
	}
	told, n, estimated := at(diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 1.5})
	if n != 0 || estimated {
		t.Errorf("all told: %d assumptions, estimated %v", n, estimated)
	}
	taken, n, estimated := at(diagram.TransformerData{Power: 75e3})
	near(t, "75 kVA", taken, told, exact)
	if n != 2 || !estimated {
		t.Errorf("nothing told: %d assumptions, estimated %v", n, estimated)
	}
	lower, _, _ := at(diagram.TransformerData{Power: 75e3, Impedance: 5.5, XR: 1.5})
	if lower >= taken {
		t.Error("the usual impedance is not at the low end")
	}
}

// A transformer of which too little is known: behind it nothing is known, and
// behind the next one the safe side.
func TestBlindTransformer(t *testing.T) {
	for _, row := range []struct {
		name               string
		primary, secondary diagram.System
		data               diagram.TransformerData
		why                string
	}{
		{"no power", delta480, wye208, diagram.TransformerData{Impedance: 4}, "power"},
		{"no far system", delta480, diagram.System{}, diagram.TransformerData{Power: 75e3}, "far side"},
		{"three phases from one", pair480, wye208, diagram.TransformerData{Power: 75e3}, "do not fit"},
	} {
		supply := wye480
		if row.primary == pair480 {
			supply = pair480
		}
		s := newSheet(t).supply("utility", supply, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
			transformer("t", row.primary, row.secondary, row.data).boards("panel").join("utility > t:primary", "t:secondary > panel")
		f := s.at("panel")
		if f.Known || f.Highest() != 0 || !strings.Contains(f.Why, row.why) {
			t.Errorf("%s: got %+v, want it not known for its %s", row.name, f, row.why)
		}
		if !s.at("t:primary").Known {
			t.Errorf("%s: the primary is not known", row.name)
		}
		if row.name == "no power" {
			s.transformer("next", wye208, split240, diagram.TransformerData{Power: 25e3, Impedance: 3, XR: 1}).join("panel > next:primary")
			next := s.at("next:secondary")
			near(t, "behind the next", next.LineLine, 25e3/240/0.03, exact)
			if !next.Estimated || len(next.Assumptions) != 1 || next.Assumptions[0].Record != "t" {
				t.Errorf("behind the next: got %+v, want what is taken for t", next.Assumptions)
			}
		}
	}
}

// A motor behind a transformer from one line to the neutral feeds back, spread
// over the three lines.
func TestMotorBehindLineToNeutral(t *testing.T) {
	s := newSheet(t).
		supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
		transformer("t", line277, split240, diagram.TransformerData{Power: 25e3, Impedance: 3, XR: 1}).
		boards("main", "panel").motor("pump", 10e3).
		join("utility > main", "main > t:primary", "t:secondary > panel", "panel > pump").byPoints()
	// a loop of 3 % on 25 kVA and 25 % on 10 kVA, one over it a power
	power := 1 / (0.03/25e3 + 0.25/10e3)
	near(t, "main", s.at("main").ThreePhase, 20e3+power/(root3*480), exact)
	f := explain(t, s, end("panel"))
	if !strings.Contains(strings.Join(lines(f.Working), "\n"), "half of the loop behind t") {
		t.Errorf("the working does not tell of the transformer: %v", lines(f.Working))
	}
}
