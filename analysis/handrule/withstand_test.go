package handrule_test

import (
	"math"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// By category the row is that of the highest line to neutral, or of line to
// line where the earthing does not hold the neutral (IEC 60664-1:2007, note to
// table F.1, from memory). By multiple it is of the crest of the nominal
// voltage: 500 % at 120 V is 848.5 V, the top of the ITIC curve (2000).
func TestWithstand(t *testing.T) {
	multiple := func(k float64) diagram.Withstand { return diagram.Withstand{Kind: diagram.ByMultiple, Multiple: k} }
	tests := []struct {
		name      string
		withstand diagram.Withstand
		system    diagram.System
		mode      diagram.Mode
		want      float64
		known     bool
	}{
		{"208Y/120, category II", category(2), wye208, diagram.LineNeutral, 1500, true},
		{"480Y/277, category III", category(3), wye480, diagram.LineLine, 4000, true},
		{"400/230 TN-S, category IV", category(4), tns400, diagram.LineEarth, 6000, true},
		{"480 V delta takes 480 V", category(3), delta480, diagram.LineEarth, 6000, true},
		{"480 V high resistance takes 480 V", category(3), hrg480, diagram.LineEarth, 6000, true},
		{"400 V IT takes 400 V", category(2), it400, diagram.LineEarth, 4000, true},
		{"high leg takes 208 V", category(2), highLeg, diagram.LineNeutral, 2500, true},
		{"split phase takes 120 V", category(2), split240, diagram.LineLine, 1500, true},
		{"over 1000 V", category(2), diagram.System{Wiring: diagram.Wye, Voltage: 4160, Earthing: diagram.Solid}, diagram.LineEarth, 0, false},
		{"five times 120 V", multiple(5), wye208, diagram.LineNeutral, 848.528, true},
		{"five times 120 V to earth", multiple(5), wye208, diagram.LineEarth, 848.528, true},
		{"five times 208 V between lines", multiple(5), wye208, diagram.LineLine, 1470.782, true},
		{"by volts", diagram.Withstand{Kind: diagram.ByVolts, Volts: 1234}, wye208, diagram.LineLine, 1234, true},
		{"by volts, not given", diagram.Withstand{Kind: diagram.ByVolts}, wye208, diagram.LineLine, 0, false},
		{"not given at all", diagram.Withstand{}, wye208, diagram.LineLine, 0, false},
	}
	for _, test := range tests {
		var working analysis.Working
		got := handrule.Withstand(test.withstand, test.system, test.mode, &working)
		step, known := working[0], got > 0
		// Half a millivolt: the figures are given to three decimals.
		if math.Abs(got-test.want) > 5e-4 || known != test.known {
			t.Errorf("%s: got %g, %v; want %g, %v", test.name, got, known, test.want, test.known)
		}
		if step.Result != got || known == (step.Text != "") {
			t.Errorf("%s: the step says %g %q", test.name, step.Result, step.Text)
		}
	}
}
