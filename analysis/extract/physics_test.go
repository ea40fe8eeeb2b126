package extract_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/diagram"
)

func reaches(t *testing.T, doc *diagram.Document, surge diagram.Surge, part diagram.ID, pair string) float64 {
	t.Helper()
	return solve(t, network(t, doc, surge), part)[pair]
}

// A surge between two conductors that only insulation and stray capacitance
// tie to earth is the open-circuit voltage of its generator, at any step.
func TestFloatingGenerator(t *testing.T) {
	it := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.IT, Frequency: 50}
	surge := usual
	surge.Path = diagram.LineToNeutral
	doc := sheet(t, []diagram.Part{supply(it), panel("main")}, feed("supply", "main", 0.5))
	for _, step := range []float64{5e-9, 1.25e-9} {
		in := input(doc, surge)
		in.Step = step
		c := networkOf(t, in)
		if got := solve(t, c, "main")["AN"]; math.Abs(got-6000) > 0.02*6000 {
			t.Errorf("step %g s: got %.0f V, want 6 000", step, got)
		}
	}
}

// The run lasts until the surge has come to the end of the longest way and
// back, not only of the longest feeder.
func TestWaitsForTheLongestWay(t *testing.T) {
	parts, feeders, last := []diagram.Part{supply(wye480)}, []diagram.Feeder(nil), "supply"
	for _, id := range []string{"pa", "pb", "pc", "pd", "pe", "pf"} {
		parts = append(parts, panel(diagram.ID(id)))
		feeders = append(feeders, feed(last, id, 60))
		last = id
	}
	surge := usual
	surge.Wave, surge.Voltage, surge.Current = diagram.BurstWave, 4000, 80
	if got := reaches(t, sheet(t, parts, feeders...), surge, "pf", "AG"); got < 500 {
		t.Errorf("got %.0f V at the end of six feeders", got)
	}
}

// A solidly earthed star point is earthed where the neutral is not brought out,
// too; an impedance lets through what it is made for, once.
func TestStarWithoutNeutral(t *testing.T) {
	for _, row := range []struct {
		earthing diagram.Earthing
		bonds    int
		ohms     float64
	}{{diagram.Solid, 1, 0}, {diagram.Impedance, 0, 277 / 5.0}, {diagram.Unearthed, 0, 0}} {
		for _, neutral := range []bool{false, true} {
			secondary := diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: neutral, Earthing: row.earthing, Frequency: 60}
			c := network(t, behindTransformer(t, diagram.TransformerData{Power: 75e3, Impedance: 4}, delta480, secondary), usual)
			bonds, siemens := 0, 0.0
			for _, inductor := range c.Network.Inductors {
				if strings.Contains(inductor.Name, "bond") {
					bonds++
				}
			}
			for _, r := range c.Network.Resistors {
				if r.B == circuit.Earth && r.Ohms < 1e6 && !strings.Contains(r.Name, "surge") {
					siemens += 1 / r.Ohms
				}
			}
			want := 0.0
			if row.ohms > 0 {
				want = 1 / row.ohms
			}
			if bonds != row.bonds || math.Abs(siemens-want) > 1e-9 {
				t.Errorf("%s, neutral %v: got %d bonds and %g S to earth, want %d and %g", row.earthing, neutral, bonds, siemens, row.bonds, want)
			}
		}
	}
}

// Leakage at 50 Hz is 60/50 of that at 60 Hz; the two halves of a winding have
// together what the whole one has.
func TestLeakageOfSystems(t *testing.T) {
	data := diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 1e6}
	leakage := func(secondary diagram.System) (each []float64) {
		for _, w := range network(t, behindTransformer(t, data, delta480, secondary), usual).Network.Windings {
			each = append(each, w.Henries)
		}
		return each
	}
	at := func(hertz float64) float64 {
		s := wye208
		s.Frequency = hertz
		return leakage(s)[0]
	}
	if got := at(50) / at(60); math.Abs(got-1.2) > 1e-9 {
		t.Errorf("50 Hz over 60 Hz: got %g, want 1.2", got)
	}
	highLeg := leakage(diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60})
	if len(highLeg) != 4 || math.Abs((highLeg[2]+highLeg[3])/highLeg[0]-1) > 1e-9 {
		t.Errorf("high leg: got %v, want the last two to add to the first", highLeg)
	}
}

// A winding from line to neutral has the turns of that voltage.
func TestSinglePhasePrimary(t *testing.T) {
	primary := diagram.System{Wiring: diagram.Single, Voltage: 277, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	secondary := diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	doc := sheet(t, []diagram.Part{supply(wye480), transformer(primary, secondary, diagram.TransformerData{Power: 5e3, Impedance: 3}), panel("far")},
		feed("supply", "trafo:primary", 10), feed("trafo:secondary", "far", 10))
	c := network(t, doc, usual)
	w := c.Network.Windings[0]
	if name := c.Network.Names[w.P.B]; len(c.Network.Windings) != 1 || math.Abs(w.Ratio-277.0/120) > 1e-9 || !strings.HasSuffix(name, " N") {
		t.Errorf("got %d windings, the first to %q with a ratio of %g", len(c.Network.Windings), name, w.Ratio)
	}
}

// Through an autotransformer a surge common to all lines passes; an isolated
// one holds most of it back.
func TestAutotransformerPasses(t *testing.T) {
	delta240 := delta480
	delta240.Voltage = 240
	through := func(auto bool) float64 {
		data := diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 3, Auto: auto}
		c := network(t, behindTransformer(t, data, delta480, delta240), usual)
		return solve(t, c, "far")["BG"] / solveAt(t, c, diagram.End{Part: "trafo", Port: diagram.Primary})["BG"]
	}
	if auto, isolated := through(true), through(false); auto < 0.9 || isolated > 0.7*auto {
		t.Errorf("got %.2f through an autotransformer, %.2f through an isolated one", auto, isolated)
	}
}

// A wave speed that is typed in leaves the inductance as it is: Z goes with it.
func TestTypedSpeedKeepsInductance(t *testing.T) {
	plain, slow := feed("supply", "main", 100), feed("supply", "main", 100)
	slow.Velocity = 1e8
	inductance := func(f diagram.Feeder) float64 {
		l := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, f), usual).Network.Lines[0]
		return l.Z.Loop(0, 1) * l.Delay
	}
	if a, b := inductance(plain), inductance(slow); math.Abs(a/b-1) > 1e-9 {
		t.Errorf("got %g H and %g H", a, b)
	}
}
