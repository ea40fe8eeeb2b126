package analysis

import "testing"

// IEC 60664-1:2007 table F.1, in volts; the rows of 150, 300 and 600 V are
// also in IEC 60364-4-44 table 44.B, the others are from memory.
func TestImpulseVoltage(t *testing.T) {
	tests := []struct {
		lineToNeutral float64
		want          [4]float64 // category I to IV
	}{
		{1, [4]float64{330, 500, 800, 1500}}, // of a bell or a signal, still up to 50 V
		{12, [4]float64{330, 500, 800, 1500}},
		{50, [4]float64{330, 500, 800, 1500}},
		{50.1, [4]float64{500, 800, 1500, 2500}},
		{100, [4]float64{500, 800, 1500, 2500}},
		{100.1, [4]float64{800, 1500, 2500, 4000}},
		{120, [4]float64{800, 1500, 2500, 4000}},
		{150, [4]float64{800, 1500, 2500, 4000}},
		{150.1, [4]float64{1500, 2500, 4000, 6000}},
		{230, [4]float64{1500, 2500, 4000, 6000}},
		{277, [4]float64{1500, 2500, 4000, 6000}},
		{300, [4]float64{1500, 2500, 4000, 6000}},
		{347, [4]float64{2500, 4000, 6000, 8000}},
		{300.1, [4]float64{2500, 4000, 6000, 8000}},
		{600, [4]float64{2500, 4000, 6000, 8000}},
		{600.1, [4]float64{4000, 6000, 8000, 12000}},
		{1000, [4]float64{4000, 6000, 8000, 12000}},
		{1000.1, [4]float64{}},
		{0, [4]float64{}},
		{-230, [4]float64{}},
	}
	for _, test := range tests {
		for i, want := range test.want {
			if got := ImpulseVoltage(test.lineToNeutral, i+1); got != want {
				t.Errorf("%g V, category %d: got %g, want %g", test.lineToNeutral, i+1, got, want)
			}
		}
	}
	for _, category := range []int{-1, 0, 5} {
		if got := ImpulseVoltage(230, category); got != 0 {
			t.Errorf("category %d: got %g, want none", category, got)
		}
	}
}

func TestImpulseRow(t *testing.T) {
	for voltage, want := range map[float64]float64{12: 50, 50: 50, 51: 100, 101: 150, 150: 150, 151: 300, 301: 600, 600: 600, 601: 1000, 1000: 1000, 1001: 0} {
		if got := ImpulseRow(voltage); got != want {
			t.Errorf("%g V: got the row of %g V, want %g", voltage, got, want)
		}
	}
}
