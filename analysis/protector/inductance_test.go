package protector

import (
	"math"
	"testing"

	"clampline/analysis/conductor"
	"clampline/analysis/waveform"
)

// within fails where got is not near want, as a share of it.
func within(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: got %.6g, want %.6g within %.2g %%", what, got, want, share*100)
	}
}

const (
	tenGauge      = 2.588e-3 / 2 // m, radius of 10 AWG (ASTM B258)
	tenGaugeCover = 4.17e-3      // m, diameter of THHN 10 AWG (NEC chapter 9 table 5, from memory)
)

func TestInductance(t *testing.T) {
	pair := func(length, distance float64) float64 {
		d := facing(distance, tenGauge)
		return 2 * (SelfInductance(length, tenGauge) - MutualInductance(length, length, d))
	}
	for _, row := range []struct {
		name      string
		got, want float64 // H
	}{
		// 0.2 l (ln(2l/r) - 1) uH: Rosa, 1908; the part inside the wire that
		// a current of 60 Hz adds is 0.05 uH/m. 0.5 % for rounded figures.
		{"10 AWG, 1 m", SelfInductance(1, tenGauge), 1.269e-6},
		{"10 AWG, 6 in", SelfInductance(0.1524, tenGauge), 0.136e-6},
		{"10 AWG, 26 in", SelfInductance(0.6604, tenGauge), 0.783e-6},
		{"14 AWG, 0.5 m", SelfInductance(0.5, 1.628e-3/2), 0.611e-6},
		{"4/0 AWG, 1 m", SelfInductance(1, 11.684e-3/2), 0.967e-6},
		{"10 AWG, 1 m, 60 Hz", SelfInductance(1, tenGauge) + 0.05e-6, 1.319e-6},
		{"pair at 25 mm, 1 m", pair(1, 25e-3), 1.1745e-6},
		// 0.4 acosh(D/d) uH/m of a long pair (standard line theory).
		{"long pair at 25 mm, per m", pair(1000, 25e-3) / 1000, 0.4e-6 * math.Acosh(25/2.588)},
		{"long pair that touches, per m", pair(1000, tenGaugeCover) / 1000, 0.422e-6},
	} {
		within(t, row.name, row.got, row.want, 5e-3)
	}
}

// Neumann's double integral, summed numerically, is another way to the mutual
// inductance of wires of different lengths.
func TestParallelIsNeumannsIntegral(t *testing.T) {
	for _, row := range []struct{ a, b, distance float64 }{{1, 1, 0.1}, {1, 0.3, 0.1}, {0.2, 2, 0.05}, {0.5, 0.5, 1}} {
		const n = 1000
		sum := 0.0
		for i := range n {
			for j := range n {
				x, y := row.a*(float64(i)+0.5)/n, row.b*(float64(j)+0.5)/n
				sum += 1 / math.Hypot(x-y, row.distance)
			}
		}
		want := 1e-7 * sum * row.a * row.b / (n * n)
		within(t, "mutual inductance", MutualInductance(row.a, row.b, row.distance), want, 1e-4)
		within(t, "the other way round", MutualInductance(row.b, row.a, row.distance), want, 1e-4)
	}
}

// A turn has less inductance than its wire stretched out, and more than half.
func TestTurn(t *testing.T) {
	straight := SelfInductance(math.Pi*0.15, tenGauge)
	if got := turn(0.15, tenGauge); got >= straight || got < straight/2 {
		t.Errorf("got %g H for a turn of a wire that has %g H stretched out", got, straight)
	}
	within(t, "turn of 0.15 m", turn(0.15, tenGauge), 0.390e-6, 5e-3)
}

// Copper at 25 kHz: skin 0.418 mm, 10 AWG 6.05 mohm/m (textbook skin effect,
// IEC 60028 copper).
func TestResistance(t *testing.T) {
	within(t, "10 AWG", SurgeResistance(math.Pi*tenGauge*tenGauge, conductor.Copper, waveform.FrontTone), 6.05e-3, 5e-3)
	within(t, "thin wire", SurgeResistance(math.Pi*1e-8, conductor.Copper, waveform.FrontTone), 1.724e-8/(math.Pi*1e-8), 1e-9)
}
