package protector

import (
	"math"
	"strings"
	"testing"
)

// material returns a published one by its name.
func material(t *testing.T, name string) Material {
	t.Helper()
	for _, m := range all() {
		if m.Name == name {
			return m
		}
	}
	t.Fatalf("there is no material %q", name)
	return Material{}
}

// Voltages of the published parameters, worked out apart from this program
// (P. Kronberger, TU Graz, 1994/95, as in public simulation libraries). 0.1 %:
// they are given to a tenth of a volt.
func TestVoltage(t *testing.T) {
	amps := []float64{1e-3, 1, 10, 100, 300, 1e3, 3e3, 5e3, 10e3, 20e3}
	for _, row := range []struct {
		name string
		want []float64
	}{
		{"disc 20 mm, 130 V", []float64{205.8, 254.5, 275.5, 308.6, 334.7, 379.9, 451.3, 502.5, 604.4}},
		{"disc 20 mm, 150 V", []float64{239.9, 295.2, 319.4, 358.1, 388.8, 442.7, 528.6, 590.6, 714.6}},
		{"disc 20 mm, 250 V", []float64{391.1, 486.4, 526.4, 587.1, 633.4, 711.8, 832.4, 917.3, 1082.7}},
		{"disc 20 mm, 275 V", []float64{431.0, 533.8, 577.5, 644.2, 695.3, 782.2, 916.7, 1011.5, 1197.0}},
		{"disc 20 mm, 320 V", []float64{509.3, 630.3, 682.5, 762.0, 822.9, 926.4, 1086.3, 1199.0, 1419.6}},
		{"disc 20 mm, 420 V", []float64{679.8, 840.6, 909.6, 1017.5, 1101.8, 1247.2, 1475.7, 1638.7, 1961.4}},
		{"disc 20 mm, 550 V", []float64{910.9, 1134.9, 1227.7, 1364.9, 1467.0, 1637.0, 1893.5, 2071.2, 2413.2}},
		{"block 32 mm, 150 V", []float64{240.4, 293.1, 314.0, 344.8, 367.7, 405.5, 462.1, 500.9, 574.7, 688.1}},
		{"block 32 mm, 320 V", []float64{509.3, 616.9, 663.9, 733.7, 785.5, 871.5, 1000.6, 1089.6, 1259.9, 1523.8}},
		{"block 32 mm, 550 V", []float64{909.3, 1101.6, 1186.8, 1311.4, 1402.6, 1552.4, 1775.0, 1927.3, 2216.7, 2661.2}},
		{"block 40 mm, 150 V", []float64{240.7, 291.5, 311.1, 339.2, 359.5, 392.6, 441.0, 473.7, 534.9, 626.9}},
		{"block 40 mm, 320 V", []float64{510.2, 611.9, 655.4, 718.5, 764.6, 839.9, 950.9, 1026.4, 1168.7, 1384.8}},
		{"block 40 mm, 550 V", []float64{910.1, 1088.2, 1166.4, 1280.8, 1364.7, 1502.3, 1706.2, 1845.2, 2108.2, 2509.4}},
		{"block 60 mm, 320 V", []float64{510.0, 614.5, 651.5, 704.1, 742.1, 803.7, 893.2, 953.3, 1064.9, 1231.0}},
	} {
		m := material(t, row.name)
		for i, want := range row.want {
			within(t, row.name, m.Voltage(amps[i]), want, 1e-3)
		}
	}
}

// The voltage at 1 mA by which such parts are sold (nominal figures of the
// rated voltages, from memory). 1.5 %: figures are rounded to the maker's steps.
func TestNominalVoltage(t *testing.T) {
	nominal := map[float64]float64{130: 205, 150: 240, 250: 390, 275: 430, 320: 510, 420: 680, 550: 910}
	for _, m := range all() {
		within(t, m.Name, m.Voltage(1e-3), nominal[m.Rated], 0.015)
	}
}

// MIL-HDBK-419A vol. 2: the voltage at 1 mA is at most 125 % of the standoff
// voltage, the crest of the rated one; that at 100 A at most 200 % and that at
// 1 kA at most 225 % of that at 1 mA.
func TestHandbookLimits(t *testing.T) {
	for _, m := range all() {
		turnOn := m.Voltage(1e-3)
		for _, row := range []struct {
			name       string
			got, limit float64
		}{
			{"turn-on over standoff", turnOn / (m.Rated * math.Sqrt2), 1.25},
			{"clamping at 100 A", m.Voltage(100) / turnOn, 2},
			{"clamping at 1 kA", m.Voltage(1000) / turnOn, 2.25},
		} {
			if row.got > row.limit || row.got < 1 {
				t.Errorf("%s: %s: got %.3f, want 1 to %.2f", m.Name, row.name, row.got, row.limit)
			}
		}
	}
	disc := material(t, "disc 20 mm, 150 V")
	within(t, "disc 20 mm, 150 V at 100 A over turn-on", disc.Voltage(100)/disc.Voltage(1e-3), 1.49, 0.01)
	within(t, "disc 20 mm, 150 V at 1 kA over turn-on", disc.Voltage(1000)/disc.Voltage(1e-3), 1.85, 0.01)
}

// The pieces stay within the 0.1 % that Curve promises, and rise.
func TestCurveFollowsFormula(t *testing.T) {
	for _, m := range all() {
		c := m.Curve("curve", 1.5)
		for x := -3.0; x <= 5; x += 0.003 {
			amps := math.Pow(10, x)
			within(t, m.Name, c.Voltage(amps), 1.5*m.Voltage(amps), 1e-3)
		}
		for i := 1; i < len(c.Volts); i++ {
			if !(c.Volts[i] > c.Volts[i-1] && c.Amps[i] > c.Amps[i-1]) {
				t.Errorf("%s does not rise at point %d", m.Name, i)
			}
		}
		within(t, m.Name+" below 1 mA", c.Voltage(1e-6), 1.5e-3*m.Voltage(1e-3), 1e-9)
		within(t, m.Name+" last point", c.Amps[len(c.Amps)-1], 200e3, 1e-5)
	}
}

func TestNearest(t *testing.T) {
	for _, row := range []struct {
		rated float64
		want  string
	}{
		{130, "block 32 mm, 130 V"}, {150, "block 40 mm, 150 V"}, {255, "block 40 mm, 275 V"}, {300, "block 40 mm, 320 V"},
		{385, "block 40 mm, 420 V"}, {690, "block 40 mm, 550 V"}, {1e-3, "block 32 mm, 130 V"}, {1e6, "block 40 mm, 550 V"},
	} {
		if got := nearest(row.rated); got.Name != row.want || !strings.HasPrefix(got.Name, "block") {
			t.Errorf("%g V: got %s, want %s", row.rated, got.Name, row.want)
		}
	}
}
