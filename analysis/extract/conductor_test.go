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

// NEC chapter 9 table 9, X of PVC over 2 pi 60: 0.47 µH/m for 12 AWG, 0.36 for
// 4/0; less the 0.05 µH/m inside a round conductor.
func TestLooseInductance(t *testing.T) {
	for _, row := range []struct {
		name string
		area float64
		want float64 // H/m at 60 Hz
	}{{"12 AWG", 3.31e-6, 0.470e-6}, {"2 AWG", 33.6e-6, 0.392e-6}, {"4/0", 107.2e-6, 0.357e-6}} {
		near(t, row.name, looseInductance(row.area), row.want-0.05e-6, 0.005)
	}
	between := looseInductance(4e-6)
	if low, high := looseInductance(5.26e-6), looseInductance(3.31e-6); between <= low || between >= high {
		t.Errorf("between two rows: got %g, want between %g and %g", between, low, high)
	}
	if looseInductance(1e-9) != looseInductance(2.08e-6) || looseInductance(1) != looseInductance(507e-6) {
		t.Error("beyond the table it does not stay")
	}
}
