package fault_test

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"clampline/diagram"
)

// behind is a main board behind a feeder from a supply that gives 1 MA at 208 V.
func behind(t *testing.T, f diagram.Feeder, codes diagram.Codes) *sheet {
	return newSheet(t).codes(codes).
		supply("utility", wye208, diagram.SourceData{FaultCurrent: 1e6, XR: 1}).boards("main").feed(f, "utility > main")
}

// A feeder of R and X that are typed in has just these, by both methods and with
// or without a size: the sum of 1 MA at 45° and of it, by Ohm's law.
func TestStatedConductor(t *testing.T) {
	const r, x = 0.2e-3, 0.15e-3
	source := complex(208/math.Sqrt(3)/1e6/math.Sqrt2, 208/math.Sqrt(3)/1e6/math.Sqrt2)
	z := complex(100*r, 100*x)
	for _, row := range []struct {
		name  string
		area  float64
		codes diagram.Codes
		want  float64
	}{
		{"without a size", 0, diagram.Codes{}, 208 / math.Sqrt(3) / cmplx.Abs(source+z)},
		{"instead of table 9", awg(2), diagram.Codes{}, 208 / math.Sqrt(3) / cmplx.Abs(source+z)},
		{"by points", awg(2), diagram.Codes{Fault: diagram.PointToPoint}, 208 / math.Sqrt(3) / (cmplx.Abs(source) + cmplx.Abs(z))},
		{"by IEC", 0, diagram.Codes{Practice: diagram.IECPractice}, 1.1 * 208 / math.Sqrt(3) / cmplx.Abs(1.1*source+z)},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := behind(t, diagram.Feeder{Length: 100, Area: row.area, Resistance: r, Reactance: x}, row.codes)
			near(t, "A", s.at("main").ThreePhase, row.want, exact)
			says(t, s, "R and X typed in")
			if f := s.at("main"); f.Estimated {
				t.Error("it is called an estimate")
			}
		})
	}
}

// One of the two alone goes with the other one of table 9, or with none.
func TestStatedAlone(t *testing.T) {
	s := behind(t, diagram.Feeder{Length: (1000 * foot), Area: awg(2), Raceway: diagram.SteelConduit, Resistance: 0.5 / (1000 * foot)}, diagram.Codes{})
	says(t, s, "(0.5 + j 0.057) Ω per 1000 ft / 1; R typed in")
	s = behind(t, diagram.Feeder{Length: (1000 * foot), Area: awg(2), Raceway: diagram.SteelConduit, Reactance: 0.05 / (1000 * foot)}, diagram.Codes{})
	says(t, s, "(0.2 + j 0.05) Ω per 1000 ft / 1; X typed in")
	s = behind(t, diagram.Feeder{Length: 100, Resistance: 0.2e-3}, diagram.Codes{})
	f := s.at("main")
	if !f.Estimated || len(f.Assumptions) == 0 || !strings.Contains(f.Assumptions[0].Text, "without reactance") {
		t.Errorf("got %+v, want that its reactance is left out", f)
	}
}

// A constant that is typed in is used by point to point alone: the plan review's
// example with another C than the table's.
func TestTypedConstant(t *testing.T) {
	f := steel(20, 500*kcmil, 2)
	f.Constant = 20000
	s := newSheet(t).codes(diagram.Codes{Tolerance: 10}).
		supply("utility", wye208, diagram.SourceData{Power: 300e3, Reactance: 2, XR: 3}).boards("main").feed(f, "utility > main")
	near(t, "by the complex sum", s.at("main").ThreePhase, planReview(t, 3).at("main").ThreePhase, exact)
	s.byPoints()
	first := 300e3 / (math.Sqrt(3) * 208) * 100 / 1.8
	near(t, "by points", s.at("main").ThreePhase, first/(1+math.Sqrt(3)*20*first/(20000*2*208)), exact)
	says(t, s, "C 20000 typed in")
	says(t, s, "C typed in at the feeder")
}

// The working says which constant is taken: of what conductor, in what raceway,
// and where it comes from.
func TestWorkingNamesConstant(t *testing.T) {
	for _, row := range []struct {
		feeder diagram.Feeder
		want   []string
	}{
		{steel(20, 500*kcmil, 1), []string{"C 22185 of 500 kcmil copper, steel conduit", "printed in a plan review's example"}},
		{steel(20, awg(2), 1), []string{"C 5907 of 2 AWG copper, steel conduit", "handbooks, from memory"}},
		{diagram.Feeder{Length: 6, Area: 35e-6, Material: diagram.Aluminium}, []string{"of between 2 AWG and 1 AWG aluminium, raceway not known, taken as nonmagnetic conduit"}},
		{diagram.Feeder{Length: 6, Area: awg(2), Raceway: diagram.Tray}, []string{"C 6044 of 2 AWG copper, tray, taken as nonmagnetic conduit"}},
		{diagram.Feeder{Length: 6, Area: 1e-6}, []string{"of less than 14 AWG copper"}},
		{diagram.Feeder{Length: 6, Area: 1e-3}, []string{"of more than 1000 kcmil copper"}},
	} {
		s := behind(t, row.feeder, diagram.Codes{Fault: diagram.PointToPoint})
		for _, want := range row.want {
			says(t, s, want)
		}
	}
}

// says reports a text that the working of the main board has not.
func says(t *testing.T, s *sheet, want string) {
	t.Helper()
	f := explain(t, s, diagram.End{Part: "main"})
	var all strings.Builder
	for _, step := range f.Working {
		all.WriteString(strings.Join([]string{step.Label, step.Numbers, step.Text, step.Source}, " | ") + "\n")
	}
	if !strings.Contains(strings.ReplaceAll(all.String(), "\u00a0", " "), want) {
		t.Errorf("got\n%swant %q", all.String(), want)
	}
}
