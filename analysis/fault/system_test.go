package fault_test

import (
	"math"
	"math/cmplx"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// amps are the four currents of a fault.
type amps struct{ threePhase, lineLine, lineNeutral, lineEarth float64 }

func check(t *testing.T, f analysis.Fault, want amps) {
	t.Helper()
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"three-phase", f.ThreePhase, want.threePhase}, {"line to line", f.LineLine, want.lineLine},
		{"line to neutral", f.LineNeutral, want.lineNeutral}, {"line to earth", f.LineEarth, want.lineEarth},
	} {
		near(t, row.name, row.got, row.want, exact)
	}
}

// polar is an impedance by magnitude and ratio of reactance to resistance.
func polar(ohms, xr float64) complex128 {
	return complex(ohms, ohms*xr) / complex(math.Hypot(1, xr), 0)
}

// A supply whose current is told, and 100 ft of 2 AWG copper in steel, or 30 m
// of 35 mm2: every wiring against its closed form, with impedances typed here.
func TestWiringsAgainstClosedForms(t *testing.T) {
	const current, xr = 12e3, 3.0
	na := complex(0.020, 0.0057)              // Ω of a line
	iec := complex(30/54e6/35e-6, 30*0.08e-3) // likewise
	half := func(z complex128) complex128 { return complex(1.5*real(z), 1.2*imag(z)) / 4 }
	root3 := math.Sqrt(3)
	for _, row := range []struct {
		name   string
		system diagram.System
		want   func() amps
	}{
		{"wye", wye480, func() amps {
			z := polar(480/root3/current, xr)
			z1, z0 := z+na, z+4*na
			three := 480 / root3 / cmplx.Abs(z1)
			n := 3 * 480 / root3 / cmplx.Abs(2*z1+z0)
			return amps{three, three * root3 / 2, n, n}
		}},
		{"wye without neutral, earthed", star480, func() amps {
			z := polar(480/root3/current, xr)
			three := 480 / root3 / cmplx.Abs(z+na)
			return amps{three, three * root3 / 2, 0, root3 * 480 / cmplx.Abs(3*z+6*na)}
		}},
		{"delta", delta480, func() amps {
			three := 480 / root3 / cmplx.Abs(polar(480/root3/current, xr)+na)
			return amps{three, three * root3 / 2, 0, 0}
		}},
		{"corner-grounded delta", corner480, func() amps {
			three := 480 / root3 / cmplx.Abs(polar(480/root3/current, xr)+na)
			return amps{three, three * root3 / 2, 0, three * root3 / 2}
		}},
		{"high-resistance grounded", hrg480, func() amps {
			three := 480 / root3 / cmplx.Abs(polar(480/root3/current, xr)+na)
			return amps{three, three * root3 / 2, 0, 0}
		}},
		{"split phase", split240, func() amps {
			loop := polar(240/current, xr)
			n := 120 / cmplx.Abs(half(loop)+2*na)
			return amps{0, 240 / cmplx.Abs(loop+2*na), n, n}
		}},
		{"two lines of a wye", pair208, func() amps {
			z := polar(208/2/current, xr)
			n := root3 * 208 / cmplx.Abs(3*z+6*na)
			return amps{0, 208 / 2 / cmplx.Abs(z+na), n, n}
		}},
		{"one line and neutral", line120, func() amps {
			n := 120 / cmplx.Abs(polar(120/current, xr)+2*na)
			return amps{0, 0, n, n}
		}},
		{"two lines", pair480, func() amps {
			return amps{0, 480 / cmplx.Abs(polar(480/current, xr)+2*na), 0, 0}
		}},
		{"TN-S", tns400, func() amps {
			z := polar(1.1*400/root3/current, xr)
			z1, z0 := z+iec, z+4*iec
			three := 1.1 * 400 / root3 / cmplx.Abs(z1)
			n := 1.1 * 400 * root3 / cmplx.Abs(2*z1+z0)
			return amps{three, three * root3 / 2, n, n}
		}},
		{"TT", tt400, func() amps {
			z := polar(1.1*400/root3/current, xr)
			three := 1.1 * 400 / root3 / cmplx.Abs(z+iec)
			return amps{three, three * root3 / 2, 1.1 * 400 * root3 / cmplx.Abs(3*z+6*iec), 0}
		}},
		{"IT", it400, func() amps {
			three := 1.1 * 400 / root3 / cmplx.Abs(polar(1.1*400/root3/current, xr)+iec)
			return amps{three, three * root3 / 2, 0, 0}
		}},
		{"single phase 230", single230, func() amps {
			n := 1.1 * 230 / cmplx.Abs(polar(1.1*230/current, xr)+2*iec)
			return amps{0, 0, n, n}
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			run := steel(100, 33.631e-6, 1)
			if row.system.Earthing.IsIEC() {
				run = diagram.Feeder{Length: 30, Area: 35e-6, Raceway: diagram.Tray}
			}
			s := newSheet(t).supply("utility", row.system, diagram.SourceData{FaultCurrent: current, XR: xr}).boards("board").feed(run, "utility > board")
			f := s.at("board")
			if !f.Known || f.Estimated {
				t.Errorf("got %+v, want it known and nothing taken", f)
			}
			check(t, f, row.want())
			why := f.LineEarth == 0 || row.system.Earthing == diagram.Corner
			if (len(f.Assumptions) == 1) != why {
				t.Errorf("assumptions %v: want a reason where no earth fault of its own is found", f.Assumptions)
			}
		})
	}
}

// A closed delta with a centre tap: from a line to it flows a third more than
// between the three, and with pure reactance 1/0.65 of the nominal voltages'
// ratio; see TestBankAgainstPhases.
func TestHighLeg(t *testing.T) {
	s := newSheet(t).supply("utility", highLeg, diagram.SourceData{FaultCurrent: 10e3, XR: 1e6})
	f := s.at("utility")
	near(t, "three-phase", f.ThreePhase, 10e3, exact)
	near(t, "line to line", f.LineLine, 10e3*math.Sqrt(3)/2, exact)
	near(t, "line to neutral", f.LineNeutral, 10e3*math.Sqrt(3)/2/0.65, 1e-6)
}

// A current to earth that is told is what is found at the supply, in every
// system that has one.
func TestEarthFaultCurrentTold(t *testing.T) {
	for _, system := range []diagram.System{wye480, star480, split240, tns400, highLeg} {
		s := newSheet(t).supply("utility", system, diagram.SourceData{FaultCurrent: 10e3, EarthFaultCurrent: 11e3, XR: 4})
		f := s.at("utility")
		near(t, system.String()+" to earth", f.LineEarth, 11e3, exact)
		near(t, system.String()+" highest between lines", max(f.ThreePhase, f.LineLine), 10e3, exact)
	}
	// of one line alone it stands for the other
	f := newSheet(t).supply("utility", line120, diagram.SourceData{EarthFaultCurrent: 5e3, XR: 2}).at("utility")
	near(t, "one line", f.LineNeutral, 5e3, exact)
}

// The conductors of a load: what it does not have cannot be joined.
func TestLoadsConductors(t *testing.T) {
	for connection, want := range map[diagram.Connection][4]bool{
		"":                    {true, true, true, true},
		diagram.ToNeutral:     {false, false, true, true},
		diagram.BetweenLines:  {false, true, false, true},
		diagram.ThreeWire:     {true, true, false, true},
		diagram.ThreeWireStar: {true, true, true, true},
	} {
		s := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 10e3, XR: 4}).
			part(diagram.Part{ID: "load", Kind: diagram.Load, Load: diagram.LoadData{Connection: connection}}).join("utility > load")
		f := s.at("load")
		got := [4]bool{f.ThreePhase > 0, f.LineLine > 0, f.LineNeutral > 0, f.LineEarth > 0}
		if got != want {
			t.Errorf("%q: got %v, want %v", connection, got, want)
		}
	}
}

// The usual ratio of a supply: the power factors at which breakers are tested.
func TestUsualRatioOfSupply(t *testing.T) {
	for _, row := range []struct {
		current  float64
		practice diagram.Practice
		want     float64
	}{
		{10e3, diagram.NECPractice, math.Tan(math.Acos(0.5))}, {10001, diagram.NECPractice, math.Tan(math.Acos(0.3))}, {50e3, diagram.NECPractice, math.Tan(math.Acos(0.2))},
		{1500, diagram.IECPractice, math.Tan(math.Acos(0.95))}, {1501, diagram.IECPractice, math.Tan(math.Acos(0.9))}, {3e3, diagram.IECPractice, math.Tan(math.Acos(0.9))},
		{4500, diagram.IECPractice, math.Tan(math.Acos(0.8))}, {10e3, diagram.IECPractice, math.Tan(math.Acos(0.5))}, {50e3, diagram.IECPractice, math.Tan(math.Acos(0.25))}, {20001, diagram.NECPractice, math.Tan(math.Acos(0.2))},
		{6e3, diagram.IECPractice, math.Tan(math.Acos(0.7))}, {16e3, diagram.IECPractice, math.Tan(math.Acos(0.3))}, {60e3, diagram.IECPractice, math.Tan(math.Acos(0.2))},
	} {
		s := newSheet(t).codes(diagram.Codes{Practice: row.practice}).supply("utility", wye480, diagram.SourceData{FaultCurrent: row.current})
		f := s.at("utility")
		near(t, "ratio", f.XR, row.want, exact)
		if !f.Estimated || len(f.Assumptions) != 1 {
			t.Errorf("%g A: got %+v, want one estimate", row.current, f.Assumptions)
		}
	}
}
