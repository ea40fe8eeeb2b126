package diagram_test

import (
	"math"
	"testing"

	"clampline/diagram"
)

// The nominal voltages are those of the preset's own name; 208 V for the high
// leg is 120 V times the square root of three, by geometry.
func TestPresets(t *testing.T) {
	tests := []struct {
		name             string
		text             string
		lines            int
		neutral, toEarth float64
	}{
		{"120/240 V split phase", "120/240", 2, 120, 120},
		{"120/208 V, two lines of a wye", "208/120 2-line", 2, 120, 120},
		{"208Y/120 V", "208Y/120", 3, 120, 120},
		{"240 V delta", "240 delta", 3, 139, 240},
		{"240/120 V high-leg delta", "240/120 high leg", 3, 120, 208},
		{"480Y/277 V", "480Y/277", 3, 277, 277},
		{"480 V delta", "480 delta", 3, 277, 480},
		{"600Y/347 V", "600Y/347", 3, 347, 347},
		{"480 V corner-grounded delta", "480 delta corner", 3, 277, 480},
		{"480 V high-resistance-grounded wye", "480 3-wire HRG", 3, 277, 480},
		{"120 V single phase", "120", 1, 120, 120},
		{"277 V single phase", "277", 1, 277, 277},
		{"240 V, two lines without neutral", "240 2-wire", 2, 139, 139},
		{"480 V, three lines without neutral", "480 3-wire", 3, 277, 277},
		{"400/230 V TN-S", "400/230 TN-S", 3, 230, 230},
		{"400/230 V TN-C-S", "400/230 TN-C-S", 3, 230, 230},
		{"400/230 V TT", "400/230 TT", 3, 230, 230},
		{"400 V IT", "400 3-wire IT", 3, 230, 400},
		{"690/400 V", "690/400 TN-S", 3, 400, 400},
		{"230 V single phase", "230 TN-S", 1, 230, 230},
	}
	presets := diagram.Presets()
	if len(tests) != len(presets) {
		t.Fatalf("got %d presets, want %d", len(presets), len(tests))
	}
	for i, test := range tests {
		preset := presets[i]
		s := preset.System
		if preset.Name != test.name || s.String() != test.text || s.Lines() != test.lines {
			t.Errorf("got %q, %q, %d lines; want %q, %q, %d", preset.Name, s, s.Lines(), test.name, test.text, test.lines)
		}
		// Half a volt: the names are in whole volts.
		if math.Abs(s.LineToNeutral()-test.neutral) > 0.5 || math.Abs(s.HighestToEarth()-test.toEarth) > 0.5 {
			t.Errorf("%s: got %.1f V to neutral, %.1f V to earth; want %g, %g", preset.Name, s.LineToNeutral(), s.HighestToEarth(), test.neutral, test.toEarth)
		}
	}
}

// Two lines without a neutral: to earth as two lines of a wye where nothing says
// of what they are, half of their voltage round a centre tap, and all of it
// where the earthing holds no middle.
func TestTwoLinesWithoutNeutral(t *testing.T) {
	tests := []struct {
		wiring   diagram.Wiring
		volts    float64
		earthing diagram.Earthing
		toEarth  float64
		text     string
	}{
		{diagram.Single, 480, diagram.Solid, 277, "480 2-wire"},
		{diagram.Single, 400, diagram.TNS, 230, "400 2-wire TN-S"},
		{diagram.TwoOfWye, 400, diagram.TT, 230, "400 2-wire TT"},
		{diagram.Split, 240, diagram.Solid, 120, "240 2-wire"},
		{diagram.Single, 480, diagram.Corner, 480, "480 2-wire corner"},
		{diagram.Single, 230, diagram.IT, 230, "230 2-wire IT"},
	}
	for _, test := range tests {
		s := diagram.System{Wiring: test.wiring, Voltage: test.volts, Earthing: test.earthing}
		if got := s.ModeVoltage(diagram.LineEarth); got != test.toEarth || s.String() != test.text {
			t.Errorf("got %s with %g V to earth, want %s with %g", s, got, test.text, test.toEarth)
		}
		if s.Lines() != 2 || s.Phases() != 1 || s.HasMode(diagram.LineNeutral) || s.HasMode(diagram.NeutralEarth) || s.ModeVoltage(diagram.LineLine) != test.volts {
			t.Errorf("%s (%s): got %d lines and %d phases, %g V between them", s, test.wiring, s.Lines(), s.Phases(), s.ModeVoltage(diagram.LineLine))
		}
	}
}
