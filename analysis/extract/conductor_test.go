package extract

import (
	"math"
	"testing"

	"clampline/analysis/conductor"
	"clampline/analysis/protector"
	"clampline/analysis/waveform"
)

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.Abs(got-want) > share*math.Abs(want) {
		t.Errorf("%s: got %.5g, want %.5g within %.2g %%", what, got, want, share*100)
	}
}

// Resistance of a round copper conductor whose current flows in the skin:
// R = rho/(pi delta (d - delta)); skin depth of copper 0.418 mm at 25 kHz
// (standard theory; 10 AWG 6.05 mohm/m at 25 kHz, 3.28 at dc).
func TestSurgeResistance(t *testing.T) {
	const awg10 = 5.26e-6
	near(t, "10 AWG", protector.SurgeResistance(awg10, conductor.Copper, waveform.FrontTone), 6.05e-3, 0.01)
	thin := 0.5e-6 // thinner than two skins: as at dc
	near(t, "0.5 mm²", protector.SurgeResistance(thin, conductor.Copper, waveform.FrontTone), conductor.Copper/thin, 1e-9)
	if a, b := protector.SurgeResistance(awg10, conductor.Aluminium, waveform.FrontTone), protector.SurgeResistance(awg10, conductor.Copper, waveform.FrontTone); a <= b {
		t.Errorf("aluminium has %g ohm/m, copper %g: want more", a, b)
	}
}
