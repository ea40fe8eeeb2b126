package fault_test

import (
	"math"
	"strings"
	"testing"

	"clampline/diagram"
)

func TestGenerator(t *testing.T) {
	rated := 150e3 / (math.Sqrt(3) * 480)
	for _, row := range []struct {
		name      string
		data      diagram.SourceData
		want      float64 // three-phase
		estimated int     // assumptions
	}{
		{"all told", diagram.SourceData{Power: 150e3, Reactance: 15, XR: 10, EarthFaultCurrent: 1500}, rated / 0.15, 0},
		{"zero sequence taken", diagram.SourceData{Power: 150e3, Reactance: 15, XR: 10}, rated / 0.15, 1},
		{"reactance taken", diagram.SourceData{Power: 150e3}, rated / 0.12, 3},
		{"current told", diagram.SourceData{FaultCurrent: 900, XR: 10, Power: 150e3, EarthFaultCurrent: 900}, 900, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := newSheet(t).generator("set", wye480, row.data).at("set")
			near(t, "three-phase", f.ThreePhase, row.want, exact)
			if len(f.Assumptions) != row.estimated || f.Estimated != (row.estimated > 0) {
				t.Errorf("got %v, want %d", f.Assumptions, row.estimated)
			}
		})
	}
	// X0 a quarter of X'': 3 / (2 + 1/4) of the three-phase current.
	f := newSheet(t).generator("set", wye480, diagram.SourceData{Power: 150e3, Reactance: 15}).at("set")
	near(t, "line to neutral", f.LineNeutral, f.ThreePhase*3/2.25, exact)
	if f.LineNeutral != f.Highest() {
		t.Error("the highest of a generator is not that to neutral")
	}
}

// K_G = c / (1 + x” sin φ) of IEC 60909-0: the current is (1 + x” sin φ) times
// that of the nominal voltage.
func TestGeneratorByIEC(t *testing.T) {
	f := newSheet(t).generator("set", tns400, diagram.SourceData{Power: 100e3, Reactance: 10, XR: 7}).at("set")
	near(t, "three-phase", f.ThreePhase, 100e3/(math.Sqrt(3)*400)/0.10*1.06, exact)
}

// The transformer of the utility: its impedance, with the tolerance; or the low
// end of what is usual.
func TestUtilityTransformer(t *testing.T) {
	full := 500e3 / (math.Sqrt(3) * 480)
	for _, row := range []struct {
		name      string
		system    diagram.System
		data      diagram.SourceData
		tolerance float64
		want      float64
	}{
		{"told", wye480, diagram.SourceData{Power: 500e3, Reactance: 4, XR: 5}, 0, full / 0.04},
		{"told, less tolerance", wye480, diagram.SourceData{Power: 500e3, Reactance: 4, XR: 5}, 7.5, full / 0.037},
		{"power alone", wye480, diagram.SourceData{Power: 500e3}, 0, full / 0.018},
		{"split phase", split240, diagram.SourceData{Power: 25e3}, 0, 25e3 / 240.0 / 0.015},
	} {
		f := newSheet(t).codes(diagram.Codes{Tolerance: row.tolerance}).supply("utility", row.system, row.data).at("utility")
		near(t, row.name, max(f.ThreePhase, f.LineLine), row.want, exact)
		if want := row.data.XR == 0; f.Estimated != want {
			t.Errorf("%s: estimated %v, want %v", row.name, f.Estimated, want)
		}
	}
}

func TestNothingKnownOfSource(t *testing.T) {
	s := newSheet(t).
		supply("utility", wye480, diagram.SourceData{}).
		transformer("t", delta480, wye208, diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 2}).
		boards("main", "lab").
		feed(steel(30, 50e-6, 1), "utility > main", "main > t:primary", "t:secondary > lab")
	for place, known := range map[string]bool{"utility": false, "main": false, "t:primary": false, "t:secondary": true, "lab": true} {
		f := s.at(place)
		if f.Known != known || (f.Highest() > 0) != known || f.Why == "" {
			t.Errorf("%s: got %+v, want known %v", place, f, known)
		}
		if !known && !strings.Contains(f.Why, "ask the utility") {
			t.Errorf("%s: %q does not say what to ask for", place, f.Why)
		}
	}
	// behind the transformer it is the safe side
	lab := s.at("lab").ThreePhase
	s.supply("utility", wye480, diagram.SourceData{FaultCurrent: 200e3, XR: 5})
	if with := s.at("lab").ThreePhase; with >= lab {
		t.Errorf("got %g A from 200 kA and %g from what is not known", with, lab)
	}
	g := newSheet(t).generator("set", wye480, diagram.SourceData{Reactance: 12}).at("set")
	if g.Known || !strings.Contains(g.Why, "nameplate") {
		t.Errorf("a generator: got %+v", g)
	}
	u := newSheet(t).supply("utility", diagram.System{}, diagram.SourceData{FaultCurrent: 10e3}).boards("main").join("utility > main").at("main")
	if u.Known || !strings.Contains(u.Why, "system of utility") {
		t.Errorf("no system: got %+v", u)
	}
}
