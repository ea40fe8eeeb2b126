package extract_test

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/conductor"
	"clampline/analysis/extract"
	"clampline/analysis/protector"
	"clampline/analysis/waveform"
	"clampline/diagram"
)

// What the sheet does not say of a feeder is filled in and told: 2 AWG (33.6 mm²,
// ASTM B258) that lie loose in a nonmetallic conduit.
func TestFeederThatSaysNothing(t *testing.T) {
	line := func(f diagram.Feeder) (circuit.Line, bool, bool) {
		c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, f), usual)
		return c.Network.Lines[0], told(c, f.ID, "2 AWG"), told(c, f.ID, "nonmetallic")
	}
	said := feed("supply", "main", 50)
	silent := said
	silent.Area, silent.Raceway, silent.Lay = 0, "", ""
	want, toldArea, toldRaceway := line(said)
	if toldArea || toldRaceway {
		t.Error("what is said is told as taken")
	}
	got, toldArea, toldRaceway := line(silent)
	if got.Z != want.Z || got.R != want.R || got.Delay != want.Delay || !toldArea || !toldRaceway {
		t.Errorf("got %+v, told %v and %v; want %+v", got, toldArea, toldRaceway, want)
	}
	thick := said
	thick.Area = 107.2e-6
	if other, _, _ := line(thick); other.R == want.R {
		t.Error("the size makes no difference")
	}
}

// A feeder shorter than a step is an inductance: between neighbours, as its first two
// lines are, that of their loop, Z l / v, and more between those farther apart; each has the resistance of its metal with that of the earth wire
// that it returns by.
func TestInductanceOfAShortFeeder(t *testing.T) {
	f := feed("supply", "main", 0.5)
	f.SurgeImpedance, f.Velocity = 90, 1.5e8
	c := network(t, sheet(t, []diagram.Part{supply(delta480), panel("main")}, f), usual)
	for _, inductor := range c.Network.Inductors {
		if len(inductor.Branches) != 3 {
			continue
		}
		m := len(inductor.Branches)
		for i := range m {
			j := (i + 1) % m
			loop := inductor.Henries[i*m+i] + inductor.Henries[j*m+j] - inductor.Henries[i*m+j] - inductor.Henries[j*m+i]
			if want := 90 * 0.5 / 1.5e8; j > 0 && math.Abs(loop-want) > 1e-9*want || j == 0 && loop < 1.1*want {
				t.Errorf("loop of %d and %d: got %g H, want %g or more", i, j, loop, want)
			}
			if want := 2 * 0.5 * protector.SurgeResistance(33.6e-6, conductor.Copper, waveform.FrontTone); math.Abs(inductor.Ohms[i]-want) > 1e-9*want {
				t.Errorf("conductor %d: got %g ohm, want %g", i, inductor.Ohms[i], want)
			}
		}
		return
	}
	t.Error("there is no inductance of three lines")
}

// Wires in a nonmetallic conduit or on a tray are tight or loose as is said of them,
// and told to be taken as loose where that is not said; nothing else is asked how it lies.
func TestLayOfAFeeder(t *testing.T) {
	line := func(r diagram.Raceway, lay diagram.Lay) (circuit.Line, bool) {
		f := feed("supply", "main", 50)
		f.Raceway, f.Lay = r, lay
		c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, f), usual)
		return c.Network.Lines[0], told(c, f.ID, "loose")
	}
	for _, raceway := range diagram.Raceways() {
		silent, toldSilent := line(raceway, "")
		loose, toldLoose := line(raceway, diagram.LooseLay)
		tight, toldTight := line(raceway, diagram.TightLay)
		counts := raceway == diagram.NonmetallicConduit || raceway == diagram.Tray
		if toldSilent != counts || toldLoose || toldTight || silent.Z != loose.Z {
			t.Errorf("%s: got it told %v, %v and %v, and %v for %v", raceway, toldSilent, toldLoose, toldTight, silent.Z, loose.Z)
		}
		if worse := loose.Z.Loop(0, 3) > 1.2*tight.Z.Loop(0, 3) && loose.Delay < tight.Delay; worse != counts {
			t.Errorf("%s: got %g and %g ohm, %g and %g s loose and tight", raceway, loose.Z.Loop(0, 3), tight.Z.Loop(0, 3), loose.Delay, tight.Delay)
		}
	}
}

// A surge impedance that is typed in is that of line and neutral, and of two lines where
// there is none.
func TestTypedSurgeImpedance(t *testing.T) {
	pair := diagram.System{Wiring: diagram.Single, Voltage: 120, Earthing: diagram.Solid, Frequency: 60}
	for _, row := range []struct {
		name   string
		system diagram.System
		back   int
	}{{"neutral", wye480, 3}, {"split phase", split240, 2}, {"delta", delta480, 1}, {"two lines", pair, 1}} {
		for _, raceway := range diagram.Raceways() {
			f := feed("supply", "main", 50)
			f.Raceway, f.SurgeImpedance = raceway, 83
			z := network(t, sheet(t, []diagram.Part{supply(row.system), panel("main")}, f), usual).Network.Lines[0].Z
			if got := z.Loop(0, row.back); math.Abs(got-83) > 1e-9 {
				t.Errorf("%s, %s: got %g ohm, want 83", row.name, raceway, got)
			}
		}
	}
}

// A feeder that takes a wave one step is a line, and is not told as stretched; one
// that it passes sooner is an inductance.
func TestFeederOfOneStep(t *testing.T) {
	for length, isLine := range map[float64]bool{1: true, 0.999: false} {
		f := feed("supply", "main", length)
		f.Velocity = 2e8 // a metre in the 5 ns of a step
		c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, f), usual)
		if run := c.Runs[f.ID]; (run.Line != extract.None) != isLine || told(c, f.ID, "one step") {
			t.Errorf("%g m of 5 ns each: got line %d, told %v", length, run.Line, c.Assumptions)
		}
	}
}

// A conductor beyond all sizes counts as one of 0.1 or of 5000 mm², which a bundle of
// bars has.
func TestSizesBeyondSense(t *testing.T) {
	line := func(area float64) circuit.Line {
		f := feed("supply", "main", 50)
		f.Area = area
		return network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, f), usual).Network.Lines[0]
	}
	for area, counts := range map[float64]float64{1e-9: 0.1e-6, 0.01: 5000e-6} {
		if got, want := line(area), line(counts); got.R != want.R || got.Z != want.Z {
			t.Errorf("%g m²: got %v and %v, want those of %g m²", area, got.R, got.Z, counts)
		}
	}
	// A wire of 0.1 mm² is all skin: rho / A for it and as much for its return. That of
	// 5000 mm² carries a surge in 0.418 mm of its rim of 2 sqrt(pi A) = 0.251 m (textbook
	// skin effect at 25 kHz, thin against its radius).
	for area, want := range map[float64]float64{0.1e-6: 50 * 1.72e-8 / 0.1e-6, 5000e-6: 50 * 1.72e-8 / (0.418e-3 * 0.2507)} {
		// 3 %: what handbooks differ by in the resistivity of copper, and the rim's curve
		if got := line(area).R.Own; math.Abs(got/want-1) > 0.03 {
			t.Errorf("%g m²: got %g ohm, want %g", area, got, want)
		}
	}
}

// The two lines of a split phase are lines A and C of a high-leg delta, between
// which its centre tap is (NEC 408.3(E) has B stand high, from memory).
func TestSplitPhaseOfAHighLeg(t *testing.T) {
	high := diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	for _, row := range []struct {
		name       string
		from, main diagram.System
		turned     bool // drawn from the panel to the supply
		near, far  string
	}{
		{"high leg to split", high, split240, false, "ACN", "ABN"},
		{"high leg to split, drawn the other way", high, split240, true, "ABN", "ACN"},
		{"of one kind", high, high, false, "ABCN", "ABCN"},
		{"split", split240, split240, false, "ABN", "ABN"},
	} {
		main := panel("main")
		main.System = row.main
		f := feed("supply", "main", 20)
		if row.turned {
			f.From, f.To = f.To, f.From
		}
		c := network(t, sheet(t, []diagram.Part{supply(row.from), main}, f), usual)
		line := c.Network.Lines[0]
		ends := func(nodes []circuit.Node) (out string) {
			for _, node := range nodes {
				name := c.Network.Names[node]
				out += name[len(name)-1:]
			}
			return out
		}
		if near, far := ends(line.A), ends(line.B); near != row.near || far != row.far {
			t.Errorf("%s: %s goes to %s, want %s to %s", row.name, near, far, row.near, row.far)
		}
	}
}
