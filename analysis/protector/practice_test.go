package protector

import (
	"testing"

	"clampline/analysis/circuit"
)

const inch = 0.0254 // m

// alike returns leads that all have one length, m.
func alike(length float64, run Run) Leads {
	lead := Lead{Length: length}
	return Leads{Phase: lead, Neutral: lead, Earth: lead, Run: run}
}

// peak returns the voltage, V, at a bus between the conductors of a mode when
// 6 kV, 3 kA drives that mode, with a protector on the bus or none.
func peak(t *testing.T, m *Model, leads Leads, pair circuit.Pair) float64 {
	t.Helper()
	n := &circuit.Network{}
	bus := addBus(n, "bus", "ABCN")
	if m != nil {
		m.Install(n, "spd", bus, leads)
	}
	l := &listing{network: n, outer: pair, gap: none}
	l.driveCombination()
	return run(t, n, 10e-9, 25e-6).Buses[0][l.place()].Volts
}

// The pair of each mode on a bus ABCN.
func lineNeutral() circuit.Pair  { return circuit.Pair{From: 0, To: 3} }
func lineEarth() circuit.Pair    { return circuit.Pair{From: 0, To: circuit.ToEarth} }
func neutralEarth() circuit.Pair { return circuit.Pair{From: 3, To: circuit.ToEarth} }
func lineLine() circuit.Pair     { return circuit.Pair{From: 0, To: 1} }

// Each inch of two straight, separate leads beyond six costs about 25 V (common
// practice, no source); tied or twisted ones much less.
func TestVoltsPerInch(t *testing.T) {
	for _, level := range []float64{400, 500, 600, 700} {
		m := calibrated(t, plate(VPR, 0, 3, true, [4]float64{level, level, level, 0}, [4]float64{150, 150, 150, 0}))
		slope := func(run Run) float64 {
			return (peak(t, m, alike(26*inch, run), lineNeutral()) - peak(t, m, alike(6*inch, run), lineNeutral())) / 20
		}
		separate, bundled, twisted := slope(Separate), slope(Bundled), slope(Twisted)
		t.Logf("VPR %.0f V: %.1f V per inch separate, %.1f bundled, %.1f twisted", level, separate, bundled, twisted)
		if separate < 20 || separate > 30 {
			t.Errorf("VPR %.0f V: got %.1f V per inch of separate leads, want 20 to 30", level, separate)
		}
		if !(twisted < bundled && bundled < separate/2) {
			t.Errorf("VPR %.0f V: got %.1f V per inch separate, %.1f bundled, %.1f twisted; want each clearly lower", level, separate, bundled, twisted)
		}
	}
}

// The earth lead is shortened first: it is in series with every line and with
// the neutral, a phase lead with its own line only (common practice, no source).
func TestEarthLeadCountsMore(t *testing.T) {
	m := calibrated(t, typical()[2].plate)
	base, phase, earth := alike(12*inch, Separate), alike(12*inch, Separate), alike(12*inch, Separate)
	phase.Phase.Length, earth.Earth.Length = 36*inch, 36*inch
	pairs := []circuit.Pair{lineEarth(), {From: 1, To: circuit.ToEarth}, {From: 2, To: circuit.ToEarth}, neutralEarth()}
	for _, pair := range pairs {
		short, long := peak(t, m, base, pair), peak(t, m, earth, pair)
		if long < short+300 {
			t.Errorf("pair %v: got %.0f V with an earth lead of 12 in, %.0f V with 36 in; want at least 300 V more", pair, short, long)
		}
	}
	short, long := peak(t, m, base, neutralEarth()), peak(t, m, phase, neutralEarth())
	within(t, "neutral to earth, with longer phase leads", long, short, 0.01)
	short, long = peak(t, m, base, lineNeutral()), peak(t, m, earth, lineNeutral())
	within(t, "line to neutral, with a longer earth lead", long, short, 0.01)
}

// A protector at the end of 30 ft of separate leads hardly helps (common
// practice, no source), and one close by does.
func TestThirtyFeet(t *testing.T) {
	m := calibrated(t, typical()[2].plate)
	for _, pair := range []circuit.Pair{lineNeutral(), lineEarth(), lineLine()} {
		open := peak(t, nil, Leads{}, pair)
		near, far := peak(t, m, alike(6*inch, Separate), pair), peak(t, m, alike(9.144, Separate), pair)
		t.Logf("pair %v: %.0f V without, %.0f V at 6 in, %.0f V at 30 ft (%.0f %%)", pair, open, near, far, far/open*100)
		if far < 0.6*open || near > 0.25*open {
			t.Errorf("pair %v: got %.0f V at 30 ft and %.0f V at 6 in of %.0f V; want over 60 %% and under 25 %%", pair, far, near, open)
		}
	}
}
