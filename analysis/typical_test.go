package analysis

import (
	"testing"

	"clampline/diagram"
)

// Every preset gets a protector whose continuous voltages stand the system:
// MCOV (Uc) at least the highest continuous voltage of each mode, with the
// factor 1.1 of IEC 60364-5-53 clause 534 (from memory) on line modes of IEC
// systems.
func TestTypicalProtectorStandsItsSystem(t *testing.T) {
	for _, preset := range diagram.Presets() {
		s := preset.System
		p := TypicalProtector(s)
		throughGap := p.Modes[diagram.LineNeutral].Connected && p.Modes[diagram.NeutralEarth].Switching
		if !p.Modes[diagram.LineEarth].Connected && !throughGap {
			t.Errorf("%s: has nothing between line and earth", preset.Name)
		}
		if s.Earthing == diagram.TT && (p.Modes[diagram.LineEarth].Connected || !throughGap) {
			t.Errorf("%s: a line leads to earth past the gap", preset.Name)
		}
		for _, mode := range diagram.Modes() {
			r := p.Modes[mode]
			if !r.Connected {
				continue
			}
			if !s.HasMode(mode) {
				t.Errorf("%s: has mode %s, which the system lacks", preset.Name, mode)
			}
			least := s.ModeVoltage(mode)
			if p.Rating == diagram.Up && mode != diagram.NeutralEarth {
				least *= 1.1
			}
			if r.MCOV < least-1e-9 { // noise of binary fractions
				t.Errorf("%s %s: MCOV %g V is below %g V", preset.Name, mode, r.MCOV, least)
			}
		}
	}
}

func TestTypicalProtectorLeavesUnusualOpen(t *testing.T) {
	p := TypicalProtector(diagram.System{Wiring: diagram.Wye, Voltage: 4160, Neutral: true, Earthing: diagram.Solid})
	for _, mode := range diagram.Modes() {
		if p.Modes[mode].Connected {
			t.Errorf("4160 V: mode %s has a rating of %g V, want none", mode, p.Modes[mode].Level)
		}
	}
}

// Boards with fewer conductors get what their lines stand at, in the modes that
// they have: 120 V asks for VPR 700 V with MCOV 150 V, 277 V for 1200 V with
// 320 V (UL 1449 steps; see typical), and 230 V for Uc 275 V.
func TestTypicalProtectorOfFewerConductors(t *testing.T) {
	const single, split, two, wye, solid = diagram.Single, diagram.Split, diagram.TwoOfWye, diagram.Wye, diagram.Solid
	type levels = [diagram.ModeCount]float64
	tests := []struct {
		name   string
		system diagram.System
		levels levels
		mcov   float64 // L-G
		poles  int
	}{
		{"120 V", diagram.System{Wiring: single, Voltage: 120, Neutral: true, Earthing: solid}, levels{700, 700, 700, 0}, 150, 1},
		{"277 V", diagram.System{Wiring: single, Voltage: 277, Neutral: true, Earthing: solid}, levels{1200, 1200, 1200, 0}, 320, 1},
		{"two lines of a wye", diagram.System{Wiring: two, Voltage: 208, Neutral: true, Earthing: solid}, levels{700, 700, 700, 1200}, 150, 2},
		{"240 V, two lines of a split phase", diagram.System{Wiring: split, Voltage: 240, Earthing: solid}, levels{0, 700, 0, 1200}, 150, 2},
		{"240 V, two lines that do not say of what", diagram.System{Wiring: single, Voltage: 240, Earthing: solid}, levels{0, 700, 0, 1200}, 150, 2},
		{"480 V, two lines", diagram.System{Wiring: two, Voltage: 480, Earthing: solid}, levels{0, 1200, 0, 2000}, 320, 2},
		{"480 V, two lines of which one is earthed", diagram.System{Wiring: single, Voltage: 480, Earthing: diagram.Corner}, levels{0, 2000, 0, 2000}, 550, 2},
		{"480 V, three lines", diagram.System{Wiring: wye, Voltage: 480, Earthing: solid}, levels{0, 1200, 0, 2000}, 320, 3},
		{"400 V, two lines", diagram.System{Wiring: two, Voltage: 400, Earthing: diagram.TNS}, levels{0, 1500, 0, 0}, 275, 2},
		{"230 V of IT, two lines", diagram.System{Wiring: single, Voltage: 230, Earthing: diagram.IT}, levels{0, 1500, 0, 0}, 275, 2},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := TypicalProtector(test.system)
			for mode, want := range test.levels {
				if got := p.Modes[mode]; got.Level != want || got.Connected != (want > 0) {
					t.Errorf("%s: got %g V, want %g", diagram.Mode(mode), got.Level, want)
				}
			}
			if got := p.Modes[diagram.LineEarth].MCOV; got != test.mcov || p.Breaker.Poles != test.poles {
				t.Errorf("got %g V continuous and %d poles, want %g V and %d", got, p.Breaker.Poles, test.mcov, test.poles)
			}
		})
	}
}

// What is usual for each system, L-N, L-G, N-G and L-L: VPR and MCOV of panel
// protectors (208Y/120 after a public guide specification for section 26 43 13, the
// others from memory), Up and Uc for 230 and 400 V to earth (from memory).
func TestTypicalFigures(t *testing.T) {
	type four = [diagram.ModeCount]float64
	wye := func(v float64, e diagram.Earthing) diagram.System {
		return diagram.System{Wiring: diagram.Wye, Voltage: v, Neutral: true, Earthing: e}
	}
	delta := func(v float64, e diagram.Earthing) diagram.System {
		return diagram.System{Wiring: diagram.Delta, Voltage: v, Earthing: e}
	}
	for _, row := range []struct {
		system      diagram.System
		level, mcov four
	}{
		{wye(208, diagram.Solid), four{700, 700, 700, 1200}, four{150, 150, 150, 300}},
		{diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid}, four{700, 700, 700, 1200}, four{150, 150, 150, 300}},
		{diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid}, four{1200, 1200, 700, 1200}, four{320, 320, 150, 320}},
		{delta(240, diagram.Unearthed), four{0, 1200, 0, 1200}, four{0, 320, 0, 320}},
		{diagram.System{Wiring: diagram.Single, Voltage: 240, Neutral: true, Earthing: diagram.Solid}, four{1200, 1200, 1200, 0}, four{320, 320, 320, 0}},
		{wye(480, diagram.Unearthed), four{2000, 2000, 2000, 2000}, four{550, 550, 550, 550}},
		{wye(600, diagram.Unearthed), four{2500, 2500, 2500, 2500}, four{690, 690, 690, 690}},
		{wye(480, diagram.Solid), four{1200, 1200, 1200, 2000}, four{320, 320, 320, 640}},
		{wye(600, diagram.Solid), four{1800, 1800, 1800, 3000}, four{420, 420, 420, 840}},
		{delta(480, diagram.Unearthed), four{0, 2000, 0, 2000}, four{0, 550, 0, 550}},
		{delta(480, diagram.Corner), four{0, 2000, 0, 2000}, four{0, 550, 0, 550}},
		{delta(600, diagram.Unearthed), four{0, 2500, 0, 2500}, four{0, 690, 0, 690}},
		{delta(690, diagram.Unearthed), four{}, four{}},
		// at the limits of the steps: the continuous voltage is never below that to earth
		{delta(140, diagram.Unearthed), four{0, 700, 0, 1200}, four{0, 150, 0, 300}},
		{delta(141, diagram.Unearthed), four{0, 1200, 0, 1200}, four{0, 320, 0, 320}},
		{delta(250, diagram.Unearthed), four{0, 1200, 0, 1200}, four{0, 320, 0, 320}},
		{delta(251, diagram.Unearthed), four{0, 1200, 0, 2000}, four{0, 320, 0, 640}},
		{delta(290, diagram.Unearthed), four{0, 1200, 0, 2000}, four{0, 320, 0, 640}},
		{delta(291, diagram.Unearthed), four{0, 1800, 0, 3000}, four{0, 420, 0, 840}},
		{delta(360, diagram.Unearthed), four{0, 1800, 0, 3000}, four{0, 420, 0, 840}},
		{delta(361, diagram.Unearthed), four{0, 2000, 0, 2000}, four{0, 550, 0, 550}},
		{delta(500, diagram.Unearthed), four{0, 2000, 0, 2000}, four{0, 550, 0, 550}},
		{delta(501, diagram.Unearthed), four{0, 2500, 0, 2500}, four{0, 690, 0, 690}},
		{delta(630, diagram.Unearthed), four{0, 2500, 0, 2500}, four{0, 690, 0, 690}},
		{delta(631, diagram.Unearthed), four{}, four{}},
		{wye(400, diagram.TNS), four{1500, 1500, 1500, 0}, four{275, 275, 255, 0}},
		{wye(400, diagram.TT), four{1500, 0, 1500, 0}, four{275, 0, 255, 0}},
		{wye(400, diagram.TNC), four{1500, 1500, 0, 0}, four{275, 275, 0, 0}},
		{wye(400, diagram.IT), four{2500, 2500, 2500, 0}, four{460, 460, 460, 0}},
		{wye(690, diagram.TNS), four{2500, 2500, 2500, 0}, four{460, 460, 460, 0}},
		{wye(1000, diagram.TNS), four{}, four{}},
	} {
		p := TypicalProtector(row.system)
		for _, mode := range diagram.Modes() {
			r := p.Modes[mode]
			if r.Level != row.level[mode] || r.MCOV != row.mcov[mode] || r.Connected != (row.level[mode] > 0) {
				t.Errorf("%s, %s: got %+v, want %g V and %g V", row.system, mode, r, row.level[mode], row.mcov[mode])
			}
			if want := row.system.Earthing == diagram.TT && mode == diagram.NeutralEarth; r.Switching != want {
				t.Errorf("%s, %s: a gap: %v", row.system, mode, r.Switching)
			}
		}
	}
}

// The length of the listing test of UL 1449 is 6 in; two leads of 0.25 m make the
// 0.5 m of IEC 60364-5-53 clause 534. 10 AWG is 5.26 mm² (ASTM B258). No SCCR is made
// up: it must be read off the device.
func TestTypicalMounting(t *testing.T) {
	for _, row := range []struct {
		system       diagram.System
		length, area float64 // m, mm²
		breaker      float64
		kind         diagram.Type
		rating       diagram.Rating
	}{
		{diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid}, 0.1524, 5.26, 30, diagram.Type2, diagram.VPR},
		{diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS}, 0.25, 6, 63, diagram.ClassII, diagram.Up},
	} {
		p := TypicalProtector(row.system)
		for _, lead := range []diagram.Lead{p.Leads.Phase, p.Leads.Neutral, p.Leads.Earth} {
			if lead.Length != row.length || lead.Area < (row.area-0.005)*1e-6 || lead.Area > (row.area+0.005)*1e-6 {
				t.Errorf("%s: got a lead of %g m and %g m²", row.system, lead.Length, lead.Area)
			}
		}
		if p.Breaker.Rated != row.breaker || p.Breaker.Poles != 3 || p.Type != row.kind || p.Rating != row.rating || p.In != 20e3 || p.SCCR != 0 || p.Note == "" || p.System != row.system {
			t.Errorf("%s: got %+v", row.system, p)
		}
	}
}

// A load gets one for the conductors that it is connected to.
func TestTypicalOnALoad(t *testing.T) {
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid}
	it := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.IT}
	tt := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TT}
	high := diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid}
	split := diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid}
	delta := diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed}
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS}
	for _, row := range []struct {
		name       string
		system     diagram.System
		connection diagram.Connection
		volts      float64 // of the load
		ok         bool
		wiring     diagram.Wiring
		voltage    float64
		neutral    bool
		level      [diagram.ModeCount]float64
	}{
		{"one line of a wye", wye, diagram.ToNeutral, 0, true, diagram.Single, 277, true, [4]float64{1200, 1200, 1200, 0}},
		{"one line of IT, which can have the voltage between lines to earth", it, diagram.ToNeutral, 0, true, diagram.Single, 230, true, [4]float64{2500, 2500, 2500, 0}},
		{"to a neutral that is not there", delta, diagram.ToNeutral, 0, false, diagram.Single, 277, false, [4]float64{0, 2000, 0, 0}},
		{"a line of a high-leg delta that is not known", high, diagram.ToNeutral, 0, false, diagram.Single, 120, true, [4]float64{700, 700, 700, 0}},
		{"a line of 120 V of a high-leg delta", high, diagram.ToNeutral, 120, true, diagram.Single, 120, true, [4]float64{700, 700, 700, 0}},
		{"the high leg itself", high, diagram.ToNeutral, 208, false, diagram.Single, 120, true, [4]float64{700, 700, 700, 0}},
		{"two lines of a wye", wye, diagram.BetweenLines, 0, true, diagram.TwoOfWye, 480, false, [4]float64{0, 1200, 0, 2000}},
		{"two lines of a split phase", split, diagram.BetweenLines, 0, true, diagram.Split, 240, false, [4]float64{0, 700, 0, 1200}},
		{"two lines of a delta", delta, diagram.BetweenLines, 0, true, diagram.Single, 480, false, [4]float64{0, 2000, 0, 2000}},
		{"between lines where there is one", single, diagram.BetweenLines, 0, false, diagram.Single, 230, false, [4]float64{0, 1500, 0, 0}},
		{"between lines where only the neutral leads to earth", tt, diagram.BetweenLines, 0, false, diagram.TwoOfWye, 400, false, [4]float64{0, 1500, 0, 0}},
		{"three lines of a wye", wye, diagram.ThreeWire, 0, true, diagram.Wye, 480, false, [4]float64{0, 1200, 0, 2000}},
		{"three lines of TT, whose neutral leads to earth", tt, diagram.ThreeWire, 0, true, diagram.Wye, 400, true, [4]float64{1500, 0, 1500, 0}},
		{"three lines and neutral", wye, diagram.ThreeWireStar, 0, true, diagram.Wye, 480, true, [4]float64{1200, 1200, 1200, 2000}},
		{"as the bus", wye, "", 0, true, diagram.Wye, 480, true, [4]float64{1200, 1200, 1200, 2000}},
	} {
		load := diagram.Part{Kind: diagram.Load, Load: diagram.LoadData{Connection: row.connection, Voltage: row.volts}}
		p, ok := TypicalOn(load, row.system)
		if ok != row.ok {
			t.Errorf("%s: got %v", row.name, ok)
		}
		if !ok {
			continue // what is made of it then says nothing
		}
		if p.System.Wiring != row.wiring || p.System.Voltage != row.voltage || p.System.Neutral != row.neutral || p.Breaker.Poles != p.System.Lines() {
			t.Errorf("%s: got one for %s with %d poles", row.name, p.System, p.Breaker.Poles)
		}
		for mode, want := range row.level {
			if got := p.Modes[mode]; got.Level != want || got.Connected != (want > 0) {
				t.Errorf("%s, %s: got %+v, want %g V", row.name, diagram.Mode(mode), got, want)
			}
		}
		board := load
		board.Kind = diagram.Panel // of a board the connection means nothing
		if p, ok := TypicalOn(board, row.system); !ok || p.System != row.system {
			t.Errorf("%s, on a board: got one for %s, %v", row.name, p.System, ok)
		}
	}
}

// By IEC there are ratings to start from up to 400 V to earth, and none above; a
// part that stands nowhere gets a protector that states nothing of a system.
func TestTypicalUpToFourHundredVolts(t *testing.T) {
	board := diagram.Part{ID: "board", Kind: diagram.Panel}
	for volts, want := range map[float64]bool{400: true, 690: true, 800: false} { // 230, 400 and 462 V to earth
		p, _ := TypicalOn(board, diagram.System{Wiring: diagram.Wye, Voltage: volts, Neutral: true, Earthing: diagram.TNS, Frequency: 50})
		if rated := p.Modes[diagram.LineNeutral].Level > 0; rated != want {
			t.Errorf("%g V: rated: %t", volts, rated)
		}
	}
	if p := TypicalFor(diagram.New(), board); p != TypicalProtector(diagram.System{}) {
		t.Errorf("of a part that stands nowhere: %+v", p)
	}
}

// A lamp between a line and the neutral of an unearthed wye has one line to protect:
// nothing between lines, and to earth what stands there in a fault, 480 V.
func TestTypicalOnOneLineOfAnUnearthedWye(t *testing.T) {
	lamp := diagram.Part{Kind: diagram.Load, Load: diagram.LoadData{Connection: diagram.ToNeutral}}
	p, ok := TypicalOn(lamp, diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Unearthed})
	if between := p.Modes[diagram.LineLine]; !ok || between.Connected || p.System.Lines() != 1 || p.Breaker.Poles != 1 {
		t.Errorf("got %+v between lines, %s on %d poles, %v", between, p.System, p.Breaker.Poles, ok)
	}
	if toEarth := p.Modes[diagram.LineEarth]; !toEarth.Connected || toEarth.MCOV < 480 {
		t.Errorf("got %+v to earth", toEarth)
	}
}
