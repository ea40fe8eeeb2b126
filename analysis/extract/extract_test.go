package extract_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/conductor"
	"clampline/analysis/extract"
	"clampline/analysis/protector"
	"clampline/analysis/transient"
	"clampline/analysis/waveform"
	"clampline/diagram"
)

func peaksOf(c *extract.Circuit, r *transient.Result, bus int) map[string]float64 {
	out := map[string]float64{}
	b := c.Network.Buses[bus]
	for i, pair := range circuit.Pairs(len(b.Conductors)) {
		out[b.PairName(pair)] = r.Buses[bus][i].Volts
	}
	return out
}

func letters(c *extract.Circuit, part diagram.ID) string {
	out := ""
	for _, conductor := range c.Network.Buses[c.Buses[diagram.End{Part: part}]].Conductors {
		out += string(conductor.Letter)
	}
	return out
}

func TestConductorsOfSystems(t *testing.T) {
	for _, row := range []struct {
		name   string
		system diagram.System
		want   string
	}{
		{"wye", wye480, "ABCN"}, {"delta", delta480, "ABC"}, {"split", split240, "ABN"},
		{"single with neutral", diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS}, "AN"},
		{"two lines", diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Unearthed}, "AB"},
	} {
		c := network(t, sheet(t, []diagram.Part{supply(row.system), panel("main")}, feed("supply", "main", 10)), usual)
		if got := letters(c, "main"); got != row.want {
			t.Errorf("%s: got %s, want %s", row.name, got, row.want)
		}
	}
}

// A feeder of a wave speed v and a loop impedance Z that are typed in is just
// that, from line to neutral.
func TestTypedFeeder(t *testing.T) {
	f := feed("supply", "main", 100)
	f.SurgeImpedance, f.Velocity = 90, 1.5e8
	c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, f), usual)
	l := c.Network.Lines[0]
	if math.Abs(l.Z.Loop(0, 3)-90) > 1e-9 || math.Abs(l.Delay-100/1.5e8) > 1e-15 {
		t.Errorf("got a loop of %g ohm and a delay of %g s, want 90 and %g", l.Z.Loop(0, 3), l.Delay, 100/1.5e8)
	}
}

// A resistance typed in is that of the metal: half of it, in a wire that is
// thicker than two skins, halves the resistance to a surge by less. The reactance
// changes nothing, and both are told.
func TestTypedResistance(t *testing.T) {
	f := feed("supply", "main", 100)
	f.Area, f.Raceway = 33.6e-6, diagram.NonmetallicConduit
	line := func(f diagram.Feeder) (circuit.Line, int) {
		c := network(t, sheet(t, []diagram.Part{supply(wye480), panel("main")}, f), usual)
		return c.Network.Lines[0], len(c.Assumptions)
	}
	plain, told := line(f)
	f.Resistance = conductor.Copper / f.Area
	if l, more := line(f); math.Abs(l.R.Own/plain.R.Own-1) > 1e-12 || more != told+1 {
		t.Errorf("that of copper: got %g ohm and %d assumptions, want %g and %d", l.R.Own, more, plain.R.Own, told+1)
	}
	f.Resistance *= 2
	if l, _ := line(f); math.Abs(l.R.Own-100*protector.SurgeResistance(f.Area, 2*conductor.Copper, waveform.FrontTone)) > 1e-9 || l.R.Own <= 1.2*plain.R.Own {
		t.Errorf("twice that of copper: got %g ohm, and %g with copper", l.R.Own, plain.R.Own)
	}
	f.Resistance, f.Reactance = 0, 0.1e-3
	if l, more := line(f); l.R != plain.R || l.Z != plain.Z || more != told+1 {
		t.Errorf("a reactance: got %+v, want %+v", l, plain)
	}
}

// A short feeder is an inductance, one of no length too; many of them in a row
// become lines of one step, so that no cluster grows without end. All have the
// inductance of their length.
func TestShortFeeders(t *testing.T) {
	parts := []diagram.Part{supply(wye480)}
	var feeders []diagram.Feeder
	last := "supply"
	for i := range 20 {
		id := "p" + string(rune('a'+i))
		parts = append(parts, panel(diagram.ID(id)))
		feeders = append(feeders, feed(last, id, 0.5))
		last = id
	}
	feeders[3].Length = 0
	c := network(t, sheet(t, parts, feeders...), usual)
	inductors, lines := 0, 0
	for id, run := range c.Runs {
		if run.Line == extract.None {
			inductors++
			continue
		}
		lines++
		l := c.Network.Lines[run.Line]
		if l.Delay != c.Step {
			t.Errorf("%s: got a delay of %g, want one step", id, l.Delay)
		}
	}
	if inductors < 10 || lines < 3 || inductors+lines != 20 {
		t.Errorf("got %d inductances and %d lines of 20 feeders", inductors, lines)
	}
	if !told(c, feeders[3].ID, "0.05\u00a0m") {
		t.Errorf("the feeder without a length is not told: %v", c.Assumptions)
	}
	short := solve(t, c, "pt")
	plain := network(t, sheet(t, []diagram.Part{supply(wye480), panel("pt")}, feed("supply", "pt", 9.5)), usual)
	if whole := solve(t, plain, "pt"); math.Abs(short["AG"]/whole["AG"]-1) > 0.05 {
		t.Errorf("twenty pieces give %.0f V, one feeder of their length %.0f V", short["AG"], whole["AG"])
	}
}

// Short feeders on both sides of a transformer, whose two sides are one cluster at
// once, make none of more than five places either.
func TestShortFeedersRoundATransformer(t *testing.T) {
	trafo := transformer(delta480, wye208, diagram.TransformerData{Power: 75e3, Impedance: 4})
	parts, feeders, last := []diagram.Part{supply(wye480), trafo}, []diagram.Feeder{feed("supply", "trafo:primary", 0.5)}, "trafo:secondary"
	for _, id := range []string{"za", "zb", "zc", "zd", "ze"} {
		parts, feeders = append(parts, panel(diagram.ID(id))), append(feeders, feed(last, id, 0.5))
		last = id
	}
	c := network(t, sheet(t, parts, feeders...), usual)
	most := 0
	for _, cluster := range c.Network.Clusters() {
		most = max(most, len(cluster.Buses))
	}
	if most != 5 {
		t.Errorf("got a cluster of %d places, want five at the most", most)
	}
}

func TestOpenSwitch(t *testing.T) {
	open := feed("main", "far", 20)
	open.Switch.Open = true
	doc := sheet(t, []diagram.Part{supply(wye480), panel("main"), panel("far")}, feed("supply", "main", 10), open)
	c := network(t, doc, usual)
	if _, reached := c.Buses[diagram.End{Part: "far"}]; reached {
		t.Error("the surge passes an open switch")
	}
	back := usual
	back.Part = "far"
	c = network(t, doc, back)
	run, ok := c.Runs[open.ID]
	if _, reached := c.Buses[diagram.End{Part: "main"}]; reached || !ok || !run.Open {
		t.Errorf("from beyond the switch: got %+v, want the feeder with an open end, and nothing before it", run)
	}
}

// A transfer switch is one bus with its selected side; the other has only the
// neutral in common, and not even that where the switch breaks it.
func TestTransferSwitch(t *testing.T) {
	for _, switches := range []bool{false, true} {
		parts := []diagram.Part{
			supply(wye480), {ID: "gen", Kind: diagram.Generator, System: wye480},
			{ID: "ats", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{SwitchesNeutral: switches}}, panel("main"),
		}
		doc := sheet(t, parts, feed("supply", "ats:normal", 5), feed("gen", "ats:emergency", 5), feed("ats:load", "main", 5))
		c := network(t, doc, usual)
		normal, common := c.Buses[diagram.End{Part: "ats", Port: diagram.Normal}], c.Buses[diagram.End{Part: "ats", Port: diagram.Common}]
		if normal != common {
			t.Errorf("the selected side is bus %d, the load side %d: want one", normal, common)
		}
		if _, reached := c.Buses[diagram.End{Part: "gen"}]; reached == switches {
			t.Errorf("switched neutral %v: the generator is reached: %v", switches, reached)
		}
	}
}

// A side of a transfer switch that nothing leads to is not there for a surge; a
// switch on that side lets a surge pass along the neutral alone.
func TestTransferSwitchWithOneSide(t *testing.T) {
	for _, row := range []struct {
		data    diagram.TransferData
		reached bool // the board, and whatever side the switch is on
	}{
		{diagram.TransferData{}, true},
		{diagram.TransferData{Position: diagram.ToEmergency}, true},
		{diagram.TransferData{Position: diagram.ToEmergency, SwitchesNeutral: true}, false},
	} {
		ats := diagram.Part{ID: "ats", Kind: diagram.TransferSwitch, Transfer: row.data}
		doc := sheet(t, []diagram.Part{supply(wye480), ats, panel("main")}, feed("supply", "ats:normal", 5), feed("ats:load", "main", 5))
		c := network(t, doc, usual)
		_, empty := c.Buses[diagram.End{Part: "ats", Port: diagram.Emergency}]
		_, board := c.Buses[diagram.End{Part: "main"}]
		if on := row.reached && row.data.Selected() == diagram.Emergency; empty != on || board != row.reached {
			t.Errorf("%+v: the empty side is reached: %v, the board: %v", row.data, empty, board)
		}
	}
}

// A surge at a transfer switch is at its load side.
func TestSurgeAtATransferSwitch(t *testing.T) {
	ats := diagram.Part{ID: "ats", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: diagram.ToEmergency, SwitchesNeutral: true}}
	doc := sheet(t, []diagram.Part{supply(wye480), {ID: "gen", Kind: diagram.Generator, System: wye480}, ats, panel("main")},
		feed("supply", "ats:normal", 5), feed("gen", "ats:emergency", 5), feed("ats:load", "main", 5))
	surge := usual
	surge.Part = "ats"
	c := network(t, doc, surge)
	_, fed := c.Buses[diagram.End{Part: "main"}]
	if _, other := c.Buses[diagram.End{Part: "supply"}]; other || !fed {
		t.Errorf("the board is reached: %v, the side that is switched off: %v", fed, other)
	}
}

// A neutral is joined to earth where a board says so, or else at the
// beginning; in TT by the electrodes; not at all where nothing is earthed.
func TestBonds(t *testing.T) {
	bonded := panel("main")
	bonded.Board.Bonded = true
	for _, row := range []struct {
		name    string
		system  diagram.System
		main    diagram.Part
		bonds   int // inductances from the neutral to earth
		assumed bool
	}{
		{"bonded at the board", wye480, bonded, 1, false},
		{"nowhere said", wye480, panel("main"), 1, true},
		{"TT", tt400, panel("main"), 0, true},
		{"impedance", diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Impedance}, panel("main"), 0, true},
		{"IT", diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.IT}, panel("main"), 0, false},
		{"corner", diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Corner}, panel("main"), 1, false},
	} {
		doc := sheet(t, []diagram.Part{supply(row.system), row.main}, feed("supply", "main", 10))
		c := network(t, doc, usual)
		bonds := 0
		for _, inductor := range c.Network.Inductors {
			if strings.Contains(inductor.Name, "bond") {
				bonds++
			}
		}
		if bonds != row.bonds || (len(c.Assumptions) > 0) != row.assumed {
			t.Errorf("%s: got %d bonds and the assumptions %v", row.name, bonds, c.Assumptions)
		}
	}
}

// Neutral and earth part at the service in TN-C-S, and at the source in TN-S
// (IEC 60364-1:2005, 312.2.1, from memory).
func TestBondOfTN(t *testing.T) {
	for earthing, want := range map[diagram.Earthing]string{diagram.TNCS: "main bond", diagram.TNS: "supply bond"} {
		system := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: earthing}
		main := panel("main")
		main.Board.Service = true
		var got []string
		for _, inductor := range network(t, sheet(t, []diagram.Part{supply(system), main}, feed("supply", "main", 10)), usual).Network.Inductors {
			if strings.Contains(inductor.Name, "bond") {
				got = append(got, inductor.Name)
			}
		}
		if !slices.Equal(got, []string{want}) {
			t.Errorf("%s: bonds %v, want %s", earthing, got, want)
		}
	}
}

// A bond holds the neutral near earth where a surge comes in on it; electrodes
// of 20 ohm do so less, and an unearthed neutral not at all.
func TestBondHoldsNeutral(t *testing.T) {
	bonded := panel("main")
	bonded.Board.Bonded = true
	surge := usual
	surge.Path = diagram.NeutralToEarth
	var peaks []float64
	for _, earthing := range []diagram.Earthing{diagram.Solid, diagram.TT, diagram.IT} {
		main := panel("main")
		if earthing == diagram.Solid {
			main = bonded
		}
		system := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: earthing}
		peaks = append(peaks, solve(t, network(t, sheet(t, []diagram.Part{supply(system), main}, feed("supply", "main", 10)), surge), "main")["NG"])
	}
	if peaks[0] > 1000 || peaks[1] < 4*peaks[0] || peaks[2] < 1.02*peaks[1] || peaks[2] < 6000 {
		t.Errorf("got %.0f V bonded, %.0f V in TT, %.0f V unearthed", peaks[0], peaks[1], peaks[2])
	}
}

func TestRefusals(t *testing.T) {
	doc := sheet(t, []diagram.Part{supply(wye480), panel("main"), panel("island")}, feed("supply", "main", 10))
	for _, row := range []struct {
		name  string
		doc   *diagram.Document
		surge func(*diagram.Surge)
		want  string
	}{
		{"no supply", sheet(t, []diagram.Part{panel("main")}), func(*diagram.Surge) {}, "no supply"},
		{"unknown part", doc, func(s *diagram.Surge) { s.Part = "ghost" }, "ghost"},
		{"fed by nothing", doc, func(s *diagram.Surge) { s.Part = "island" }, "island"},
		{"no voltage", doc, func(s *diagram.Surge) { s.Voltage = 0 }, "above zero"},
	} {
		surge := usual
		row.surge(&surge)
		_, err := extract.Network(context.Background(), input(row.doc, surge))
		if err == nil || !strings.Contains(err.Error(), row.want) || !strings.Contains(err.Error(), surge.Name) {
			t.Errorf("%s: got %v, want an error with the case and %q", row.name, err, row.want)
		}
	}
}

// Each path strikes the conductors that it names; together the generators have
// the current of the case.
func TestPaths(t *testing.T) {
	doc := sheet(t, []diagram.Part{supply(wye480), panel("main")}, feed("supply", "main", 10))
	for path, want := range map[diagram.Path]int{
		diagram.LinesToEarth: 3, diagram.LineToEarth: 1, diagram.LineToNeutral: 1, diagram.LineToLine: 1, diagram.NeutralToEarth: 1,
	} {
		for _, wave := range diagram.Waves() {
			surge := usual
			surge.Path, surge.Wave = path, wave
			c := network(t, doc, surge)
			struck := len(c.Network.Sources)
			for _, x := range c.Network.Capacitors {
				if x.Charged != 0 {
					struck++
				}
			}
			if struck != want {
				t.Errorf("%s, %s: got %d generators, want %d", path, wave, struck, want)
			}
			diodes := 0
			if wave == diagram.CombinationWave { // of each generator its own
				diodes = want
			}
			if got := len(c.Network.Diodes); got != diodes {
				t.Errorf("%s, %s: got %d diodes, want %d", path, wave, got, diodes)
			}
		}
	}
}

// Loads are open unless the sheet says otherwise; a resistive one takes its
// power: 3 V²/P in each line to neutral for three.
func TestLoads(t *testing.T) {
	load := diagram.Part{ID: "load", Kind: diagram.Load, Load: diagram.LoadData{Power: 30e3}}
	peak := func(terminals diagram.Terminals) (float64, *extract.Circuit) {
		load.Load.Terminals = terminals
		c := network(t, sheet(t, []diagram.Part{supply(wye480), load}, feed("supply", "load", 30)), usual)
		return solve(t, c, "load")["AN"], c
	}
	open, _ := peak(diagram.OpenTerminals)
	resistive, c := peak(diagram.ResistiveTerminals)
	filtered, _ := peak(diagram.FilteredTerminals)
	if resistive > open*0.8 || filtered >= open*1.5 {
		t.Errorf("got %.0f V open, %.0f V resistive, %.0f V with a filter", open, resistive, filtered)
	}
	for _, r := range c.Network.Resistors {
		if strings.Contains(r.Name, "resistance") && math.Abs(r.Ohms-3*277*277/30e3) > 1e-9 {
			t.Errorf("got %g ohm, want %g", r.Ohms, 3*277.0*277/30e3)
		}
	}
}
