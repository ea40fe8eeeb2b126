package usual

import (
	"math"
	"testing"
)

// No fault current is found too small: what is taken in a fault is at most what is
// taken in a surge. tan φ of a power factor of 0.5 is √3, of 0.2 it is √24.
func TestFaultsTakeTheLowEnd(t *testing.T) {
	dry := Transformer{Power: SurgeTransformer}
	if percent, _ := dry.Impedance(false); percent != 4 || percent > SurgeImpedance {
		t.Errorf("75 kVA: got %g %% in a fault and %g %% in a surge", percent, SurgeImpedance)
	}
	if Subtransient > SurgeReactance {
		t.Errorf("a generator: got %g %% in a fault and %g %% in a surge", Subtransient, SurgeReactance)
	}
	for _, row := range []struct {
		current, want float64
		iec           bool
	}{{10e3, math.Sqrt(3), false}, {10e3, math.Sqrt(3), true}, {1e6, math.Sqrt(24), false}, {1e6, math.Sqrt(24), true}} {
		if got, source := SourceXR(row.current, row.iec); !(math.Abs(got-row.want) <= 1e-12) || source == "" {
			t.Errorf("%g A: got X/R %g by %q, want %g", row.current, got, source, row.want)
		}
	}
}
