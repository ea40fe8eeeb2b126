package extract_test

import (
	"math"
	"strings"
	"testing"

	"clampline/diagram"
)

func transformer(primary, secondary diagram.System, data diagram.TransformerData) diagram.Part {
	data.Primary = primary
	return diagram.Part{ID: "trafo", Kind: diagram.Transformer, System: secondary, Transformer: data}
}

func behindTransformer(t *testing.T, data diagram.TransformerData, primary, secondary diagram.System) *diagram.Document {
	return sheet(t, []diagram.Part{supply(primary), transformer(primary, secondary, data), panel("far")},
		feed("supply", "trafo:primary", 10), feed("trafo:secondary", "far", 10))
}

// Leakage seen from the secondary, L = (%X/100) V²/(S 2 pi f): 45.9 µH for
// 112.5 kVA, 208 V, 4.5 % (arithmetic).
func TestLeakage(t *testing.T) {
	data := diagram.TransformerData{Power: 112.5e3, Impedance: 4.5, XR: 1e6}
	c := network(t, behindTransformer(t, data, delta480, wye208), usual)
	if len(c.Network.Windings) != 3 {
		t.Fatalf("got %d windings, want 3", len(c.Network.Windings))
	}
	for _, w := range c.Network.Windings {
		if math.Abs(w.Henries-45.9e-6) > 0.005*45.9e-6 {
			t.Errorf("%s: got %g H, want 45.9 µH", w.Name, w.Henries)
		}
		if math.Abs(w.Ratio-4) > 1e-9 {
			t.Errorf("%s: got a ratio of %g, want 480/120", w.Name, w.Ratio)
		}
	}
}

// A delta-wye transformer passes what stands between lines by its turns, 480 V
// line to line becoming 120 V line to neutral, and what is common to all lines
// by its capacitances alone; a screen leaves little of that.
func TestWhatATransformerPasses(t *testing.T) {
	data := diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 3}
	differential := usual
	differential.Path = diagram.LineToLine
	c := network(t, behindTransformer(t, data, delta480, wye208), differential)
	primary, secondary := solveAt(t, c, diagram.End{Part: "trafo", Port: diagram.Primary}), solve(t, c, "far")
	ratio := secondary["AN"] / primary["AB"]
	if ratio < 0.2 || ratio > 0.5 { // a quarter by turns, up to twice with the ringing of an open secondary
		t.Errorf("line to line: %.0f V become %.0f V, %.2f of it", primary["AB"], secondary["AN"], ratio)
	}
	common := network(t, behindTransformer(t, data, delta480, wye208), usual)
	data.Screen = true
	screened := network(t, behindTransformer(t, data, delta480, wye208), usual)
	open, kept := solve(t, common, "far")["AN"], solve(t, screened, "far")["AN"]
	if open < 1 || kept > open/5 {
		t.Errorf("common to all lines: %.0f V without a screen, %.0f V with one", open, kept)
	}
}

// Windings of every pair of systems: the ones that fit are coupled, the others
// told. What has one phase has no star with two lines of it.
func TestEveryPairOfSystems(t *testing.T) {
	for _, p := range diagram.Presets() {
		for _, s := range diagram.Presets() {
			doc := behindTransformer(t, diagram.TransformerData{Power: 30e3, Impedance: 4}, p.System, s.System)
			c := network(t, doc, usual)
			fits := p.System.Phases() == 3 || s.System.Phases() == 1 && s.System.Wiring != diagram.TwoOfWye
			if coupled := len(c.Network.Windings) > 0; coupled != fits || told(c, "trafo", "do not fit") == fits {
				t.Errorf("%s to %s: got %d windings, %v", p.Name, s.Name, len(c.Network.Windings), c.Assumptions)
			}
		}
	}
}

// A single-phase transformer stands between two lines of a wye, of which it has the
// full voltage: 480 to 120 V for each half of its secondary.
func TestSinglePhaseOnAWye(t *testing.T) {
	c := network(t, behindTransformer(t, diagram.TransformerData{Power: 25e3, Impedance: 3}, wye480, split240), usual)
	if len(c.Network.Windings) != 2 {
		t.Fatalf("got %d windings, want two halves", len(c.Network.Windings))
	}
	for _, w := range c.Network.Windings {
		from, to := c.Network.Names[w.P.A], c.Network.Names[w.P.B]
		if from != "trafo primary A" || to != "trafo primary B" || math.Abs(w.Ratio-4) > 1e-9 {
			t.Errorf("%s: from %s to %s with a ratio of %g", w.Name, from, to, w.Ratio)
		}
	}
}

// An autotransformer has one neutral, and none that is bonded anew.
func TestAutotransformer(t *testing.T) {
	data := diagram.TransformerData{Power: 30e3, Impedance: 4, Auto: true}
	c := network(t, behindTransformer(t, data, wye480, wye208), usual)
	bonds, joints := 0, 0
	for _, inductor := range c.Network.Inductors {
		switch inductor.Name {
		case "supply bond":
			bonds++
		case "trafo neutral":
			joints++
		}
	}
	if bonds != 1 || joints != 1 {
		t.Errorf("got %d bonds at the supply and %d joined neutrals, want one of each", bonds, joints)
	}
}

// An autotransformer has one point where its windings meet: the neutral where either
// side has one, and else a node of its own.
func TestStarOfAnAutotransformer(t *testing.T) {
	bare := func(s diagram.System) diagram.System { s.Neutral = false; return s }
	for _, row := range []struct {
		primary, secondary diagram.System
		want               string
	}{
		{wye480, wye208, "trafo primary N"},
		{bare(wye480), wye208, "trafo secondary N"},
		{wye480, bare(wye208), "trafo primary N"},
		{bare(wye480), bare(wye208), "trafo star"},
	} {
		c := network(t, behindTransformer(t, diagram.TransformerData{Power: 30e3, Impedance: 4, Auto: true}, row.primary, row.secondary), usual)
		if len(c.Network.Windings) != 3 {
			t.Errorf("%s to %s: got %d windings, want 3", row.primary, row.secondary, len(c.Network.Windings))
		}
		for _, w := range c.Network.Windings {
			if p, s := c.Network.Names[w.P.B], c.Network.Names[w.S.B]; p != row.want || s != row.want {
				t.Errorf("%s to %s: the windings meet at %q and %q, want %q", row.primary, row.secondary, p, s, row.want)
			}
		}
	}
}

// What arrives with fewer lines than a transformer is wound for does not drive it.
func TestTransformerOfMoreLinesThanArrive(t *testing.T) {
	doc := sheet(t, []diagram.Part{supply(split240), transformer(wye480, wye208, diagram.TransformerData{Power: 30e3, Impedance: 4}), panel("far")},
		feed("supply", "trafo:primary", 10), feed("trafo:secondary", "far", 10))
	c := network(t, doc, usual)
	if len(c.Network.Windings) != 0 || !told(c, "trafo", "do not fit") {
		t.Errorf("got %d windings, told %v", len(c.Network.Windings), c.Assumptions)
	}
}

// Capacitances grow with the root of the power from those of 75 kVA, in all 2 nF
// between the windings and from each to earth; a screen leads to earth what lies
// between them.
func TestCapacitancesOfATransformer(t *testing.T) {
	sum := func(power float64, screen bool) (between, toEarth float64) {
		c := network(t, behindTransformer(t, diagram.TransformerData{Power: power, Impedance: 4, Screen: screen}, delta480, wye208), usual)
		for _, e := range c.Network.Capacitors {
			switch {
			case strings.HasPrefix(e.Name, "trafo between windings"):
				between += e.Farads
			case strings.HasPrefix(e.Name, "trafo to earth"):
				toEarth += e.Farads / 2 // of two windings
			}
		}
		return between, toEarth
	}
	for _, row := range []struct {
		power          float64
		screen         bool
		between, earth float64
	}{{75e3, false, 2e-9, 2e-9}, {300e3, false, 4e-9, 4e-9}, {75e3, true, 30e-12, 4e-9}, {18.75e3, true, 30e-12, 2e-9},
		// From a control transformer of 1 kVA to a substation's of 5 MVA: what is smaller or
		// larger has no less and no more.
		{1e3, false, 0.23094e-9, 0.23094e-9}, {50, false, 0.23094e-9, 0.23094e-9}, {5e6, false, 16.3299316e-9, 16.3299316e-9}, {63e6, false, 16.3299316e-9, 16.3299316e-9}} {
		if between, earth := sum(row.power, row.screen); math.Abs(between-row.between) > 1e-15 || math.Abs(earth-row.earth) > 1e-15 {
			t.Errorf("%g VA, screen %v: got %g F between and %g F to earth, want %g and %g", row.power, row.screen, between, earth, row.between, row.earth)
		}
	}
}

// The leakage follows the per cent impedance down to a hundredth of a per cent.
func TestSmallImpedanceOfATransformer(t *testing.T) {
	impedance := func(percent float64) float64 {
		c := network(t, behindTransformer(t, diagram.TransformerData{Power: 75e3, Impedance: percent, XR: 3}, delta480, wye208), usual)
		w := c.Network.Windings[0]
		return math.Hypot(w.Ohms, 2*math.Pi*60*w.Henries)
	}
	for _, percent := range []float64{1, 0.5} {
		if got, want := impedance(percent)/impedance(4), percent/4; math.Abs(got-want) > 0.01*want {
			t.Errorf("%g %%: %g of that of 4 %%, want %g", percent, got, want)
		}
	}
}

// The leakage goes down as the power goes up, from the one volt-ampere of a bell
// transformer on; what is typed in is not taken for what is not known.
func TestSmallPowerOfATransformer(t *testing.T) {
	impedance := func(power float64) float64 {
		c := network(t, behindTransformer(t, diagram.TransformerData{Power: power, Impedance: 4, XR: 3}, delta480, wye208), usual)
		if told(c, "trafo", "75 kVA") {
			t.Errorf("%g VA: told that it is taken as 75 kVA", power)
		}
		w := c.Network.Windings[0]
		return math.Hypot(w.Ohms, 2*math.Pi*60*w.Henries)
	}
	for power, counts := range map[float64]float64{1000: 1000, 50: 50, 1: 1, 0.5: 1} {
		if got, want := impedance(power)/impedance(75e3), 75e3/counts; math.Abs(got-want) > 1e-3*want {
			t.Errorf("%g VA: %g times that of 75 kVA, want %g", power, got, want)
		}
	}
}

// The turns of a transformer are those of its nameplate, whatever arrives at it: fed
// from behind with 220Y/127 V, one of 480 to 208Y/120 V still has 480 to 120.
func TestTurnsAreThoseOfTheNameplate(t *testing.T) {
	arrives := wye208
	arrives.Voltage = 220
	doc := sheet(t, []diagram.Part{supply(arrives), transformer(delta480, wye208, diagram.TransformerData{Power: 75e3, Impedance: 4}), panel("far")},
		feed("supply", "trafo:secondary", 10), feed("trafo:primary", "far", 10))
	c := network(t, doc, usual)
	if len(c.Network.Windings) != 3 {
		t.Fatalf("got %d windings, want 3", len(c.Network.Windings))
	}
	for _, w := range c.Network.Windings {
		if math.Abs(w.Ratio-4) > 1e-9 {
			t.Errorf("%s: got a ratio of %g, want 4", w.Name, w.Ratio)
		}
	}
}
