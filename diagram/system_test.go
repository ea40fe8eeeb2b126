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
		{"208Y/120 V", "208Y/120", 3, 120, 120},
		{"240 V delta", "240 delta", 3, 139, 240},
		{"240/120 V high-leg delta", "240/120 high leg", 3, 120, 208},
		{"480Y/277 V", "480Y/277", 3, 277, 277},
		{"480 V delta", "480 delta", 3, 277, 480},
		{"600Y/347 V", "600Y/347", 3, 347, 347},
		{"480 V corner-grounded delta", "480 delta corner", 3, 277, 480},
		{"480 V high-resistance-grounded wye", "480 3-wire HRG", 3, 277, 480},
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
