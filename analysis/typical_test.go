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
