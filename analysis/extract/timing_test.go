package extract_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/analysis/protector"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// A step must see the front of a wave and a duration its tail: fronts and times to
// half value of 1.2/50 and 8/20 (IEC 60060-1:2010, IEC 62475:2010), 10/350 (IEC
// 62305-1:2010 annex B), 10/1000 and the ring wave of 0.5 µs and 100 kHz (IEEE
// C62.41.2-2002), 5/50 ns (IEC 61000-4-4:2012).
func TestTimingOfWaves(t *testing.T) {
	for wave, time := range map[diagram.Wave]struct{ front, half float64 }{
		diagram.CombinationWave: {1.2e-6, 20e-6}, // its voltage rises in 1.2 µs, its current is that of 8/20
		diagram.LaboratoryWave:  {1.2e-6, 20e-6},
		diagram.CurrentWave:     {8e-6, 20e-6},
		diagram.RingWave:        {0.5e-6, 10e-6}, // a period; 60 % are left after each half of one
		diagram.ImpulseWave:     {10e-6, 350e-6},
		diagram.LongWave:        {10e-6, 1000e-6},
		diagram.BurstWave:       {5e-9, 50e-9},
	} {
		surge := usual
		surge.Wave = wave
		c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, feed("supply", "main", 10)), surge)
		if c.Step > time.front/50 || c.Step < time.front/5000 {
			t.Errorf("%s: got a step of %g s, of a front of %g s", wave, c.Step, time.front)
		}
		// three times the time to half value is an eighth of an exponential tail
		if c.Duration < 2.9*time.half || c.Duration > 15*time.half {
			t.Errorf("%s: got a duration of %g s, of a half value at %g s", wave, c.Duration, time.half)
		}
	}
}

// A gap that fires makes steeper fronts: the step is halved. A step that is asked
// for counts all the same. What may be gone on for is the time of the wave once more,
// 60 µs, and not that of the way there and back.
func TestTimingAsAskedFor(t *testing.T) {
	p := diagram.Protector{ID: "p", Plan: diagram.FirstPlan, Bus: "main", Rating: diagram.Up}
	p.Modes[diagram.NeutralEarth] = diagram.ModeRating{Connected: true, Level: 1500, MCOV: 255}
	p.Modes[diagram.LineNeutral] = diagram.ModeRating{Switching: true} // not connected
	doc := sheet(t, []diagram.Part{supply(tt400), panel("main")}, feed("supply", "main", 10))
	with := func(alter func(*extract.Input)) *extract.Circuit {
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetProtector(p) })
		in := input(doc, usual)
		in.Models = map[protector.Nameplate]*protector.Model{}
		alter(&in)
		return networkOf(t, in)
	}
	plain := with(func(*extract.Input) {})
	p.Modes[diagram.NeutralEarth].Switching = true
	if c := with(func(*extract.Input) {}); c.Step != plain.Step/2 || c.Duration != plain.Duration {
		t.Errorf("with a gap: got %g s of %g s, without %g s of %g s", c.Step, c.Duration, plain.Step, plain.Duration)
	}
	if c := with(func(in *extract.Input) { in.Step = 3e-9 }); c.Step != 3e-9 {
		t.Errorf("3 ns asked for: got %g s", c.Step)
	}
	if more := plain.Longest - plain.Duration; math.Abs(more-60e-6) > 1e-12 {
		t.Errorf("got %g s to go on for after %g s, want 60 µs", more, plain.Duration)
	}
}

// What a surge takes longer to than can be solved is refused by name and time: 60 km at
// two thirds of the speed of light are 300 µs.
func TestRefusesEndlessWays(t *testing.T) {
	surge := usual
	surge.Wave, surge.Voltage, surge.Current = diagram.BurstWave, 4000, 80
	far := feed("main", "far", 60e3)
	doc := sheet(t, []diagram.Part{supply(wye480), panel("main"), panel("far")}, feed("supply", "main", 10), far)
	if _, err := extract.Network(context.Background(), input(doc, surge)); err == nil || !strings.Contains(err.Error(), "it takes 300 µs to far") {
		t.Errorf("got %v, want a refusal that names the place", err)
	}
	if _, err := extract.Network(context.Background(), input(doc, usual)); err != nil {
		t.Errorf("a slower wave: got %v", err)
	}
}

// The impedance of a surge case is its voltage over its current, within what a
// generator can have, and on several lines that of each is so many times as high.
func TestImpedanceOfSurges(t *testing.T) {
	for _, row := range []struct{ volts, amps, want float64 }{{4000, 80, 50}, {4000, 0.01, 1e5}, {1, 1e6, 0.01}} {
		for path, lines := range map[diagram.Path]float64{diagram.LineToEarth: 1, diagram.LinesToEarth: 3, diagram.LineToLine: 1} {
			surge := usual
			surge.Wave, surge.Voltage, surge.Current, surge.Path, surge.Part = diagram.BurstWave, row.volts, row.amps, path, "supply"
			c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, feed("supply", "main", 10)), surge)
			if len(c.Network.Sources) != int(lines) {
				t.Errorf("%s: got %d sources", path, len(c.Network.Sources))
			}
			for _, s := range c.Network.Sources {
				if s.Ohms != row.want*lines || s.Volts != row.volts {
					t.Errorf("%g V and %g A, %s: got %g V behind %g ohm, want %g ohm", row.volts, row.amps, path, s.Volts, s.Ohms, row.want*lines)
				}
			}
			if limited := row.want != row.volts/row.amps; told(c, "supply", "impedance of the surge case") != limited {
				t.Errorf("%g V and %g A: told %v", row.volts, row.amps, c.Assumptions)
			}
		}
	}
}

// An extraction that nobody waits for any more ends with that, not with a circuit.
func TestNetworkStopsWhereTheContextEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	c, err := extract.Network(ctx, input(sheet(t, []diagram.Part{supply(wye480), panel("main")}, feed("supply", "main", 10)), usual))
	if c != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, %v", c, err)
	}
}

// The leads of a protector, 10 AWG of which nothing is said, have the resistance of the
// wave as feeders have, and a resistance typed in says for which frequency it counts.
func TestConductorsFollowTheWave(t *testing.T) {
	p := diagram.Protector{ID: "spd", Plan: diagram.FirstPlan, Bus: "main", Rating: diagram.Up, In: 10e3, System: tns230}
	p.Modes[diagram.LineEarth] = diagram.ModeRating{Connected: true, Level: 1250, MCOV: 275}
	f := feed("supply", "main", 10)
	f.Area, f.Resistance = 33.6e-6, 0.6e-3
	doc := sheet(t, []diagram.Part{supply(tns230), panel("main")}, f)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetProtector(p) })
	in := input(doc, usual)
	plate := extract.Nameplates(in)[0]
	model, err := protector.Calibrate(context.Background(), plate)
	if err != nil {
		t.Fatal(err)
	}
	in.Models = map[protector.Nameplate]*protector.Model{plate: model}
	leads := func(wave diagram.Wave, tone string) float64 {
		in.Surge.Wave = wave
		c := networkOf(t, in)
		if !slices.ContainsFunc(c.Assumptions, func(a analysis.Assumption) bool { return strings.HasSuffix(a.Source, tone) }) {
			t.Errorf("%s: got %v, want a resistance at %s", wave, c.Assumptions, tone)
		}
		at := slices.IndexFunc(c.Network.Inductors, func(x circuit.Inductor) bool { return strings.HasSuffix(x.Name, "leads") })
		return c.Network.Inductors[at].Ohms[0]
	}
	// 10 AWG: 3.28 mΩ/m all through, 6.05 in the skin of 25 kHz (textbook skin effect)
	near := func(what string, got, want float64) {
		if math.Abs(got/want-1) > 0.005 {
			t.Errorf("%s: got %g, want %g", what, got, want)
		}
	}
	front := leads(diagram.CurrentWave, "25\u00a0000\u00a0Hz")
	near("10/350 over 8/20", leads(diagram.ImpulseWave, "714\u00a0Hz")/front, 3.28/6.05)
	near("combination over 8/20", leads(diagram.CombinationWave, "25\u00a0000\u00a0Hz")/front, 1)
}
