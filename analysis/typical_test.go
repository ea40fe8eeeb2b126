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
