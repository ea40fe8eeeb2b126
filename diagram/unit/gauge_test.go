package unit

import (
	"math"
	"slices"
	"testing"
)

// within reports whether got is within a relative tolerance of want.
func within(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// ASTM B258: nominal diameters of solid round wire. 12, 10 and 4/0 as public
// texts on the standard give them, the others from memory. 0.1 % covers the
// rounding of the printed figures.
func TestAWGDiameter(t *testing.T) {
	tests := []struct {
		name        string
		gauge       int
		millimetres float64
	}{
		{"36", 36, 0.1270},
		{"24", 24, 0.5106},
		{"14", 14, 1.628},
		{"12", 12, 2.053},
		{"10", 10, 2.588},
		{"2", 2, 6.544},
		{"1/0", 0, 8.251},
		{"4/0", -3, 11.684},
	}
	for _, test := range tests {
		if got := AWGDiameter(test.gauge) * 1e3; !within(got, test.millimetres, 1e-3) {
			t.Errorf("%s: got %.4f mm, want %.4f mm", test.name, got, test.millimetres)
		}
	}
}

// Areas in mm² as tables of AWG sizes print them (3/0 from memory). The
// tolerance is half of the last figure printed, at least 0.1 %.
func TestAWGArea(t *testing.T) {
	tests := []struct {
		name              string
		gauge             int
		squareMillimetres float64
		tolerance         float64
	}{
		{"14", 14, 2.08, 0.0024},
		{"12", 12, 3.31, 0.0016},
		{"10", 10, 5.26, 0.001},
		{"8", 8, 8.37, 0.001},
		{"6", 6, 13.3, 0.0038},
		{"4", 4, 21.15, 0.001},
		{"2", 2, 33.6, 0.0015},
		{"1/0", 0, 53.5, 0.001},
		{"2/0", -1, 67.4, 0.001},
		{"3/0", -2, 85.0, 0.001},
		{"4/0", -3, 107.2, 0.001},
	}
	for _, test := range tests {
		if got := AWGArea(test.gauge) * 1e6; !within(got, test.squareMillimetres, test.tolerance) {
			t.Errorf("%s: got %.3f mm², want %.3f mm²", test.name, got, test.squareMillimetres)
		}
	}
}

// Six gauges halve the diameter, very nearly: the ratio is 92^(6/39) = 2.0050.
func TestAWGStep(t *testing.T) {
	for n := 36; n >= 3; n-- {
		if got, want := AWGDiameter(n-6)/AWGDiameter(n), math.Pow(92, 6.0/39); !within(got, want, 1e-12) {
			t.Errorf("gauge %d: got a ratio of %.6f, want %.6f", n, got, want)
		}
	}
}

// By the definition of the circular mil, computed: pi/4 times 0.0254 mm squared.
// 1e-5 covers the rounding of the figures.
func TestKcmil(t *testing.T) {
	for k, want := range map[float64]float64{250: 126.677, 500: 253.354, 1000: 506.707} {
		if got := k * kcmil.worth * 1e6; !within(got, want, 1e-5) {
			t.Errorf("%g kcmil: got %.3f mm², want %.3f mm²", k, got, want)
		}
	}
}

func TestSizes(t *testing.T) {
	tests := []struct {
		c           Convention
		count       int
		first, last string
	}{
		{NorthAmerican, 24, "14 AWG", "1" + noBreakSpace + "000 kcmil"},
		{IEC, 19, "1.5 mm²", "630 mm²"},
	}
	for _, test := range tests {
		got := sizesIn(test.c)
		if len(got) != test.count || !slices.IsSorted(got) || len(slices.Compact(slices.Clone(got))) != test.count {
			t.Errorf("%s: got %g, want %d sizes, each larger than the one before", test.c, got, test.count)
		}
		first, last := Format(got[0], Area, test.c), Format(got[len(got)-1], Area, test.c)
		if first != test.first || last != test.last {
			t.Errorf("%s: got sizes from %s to %s, want %s to %s", test.c, first, last, test.first, test.last)
		}
	}
}

// The sizes that a picker offers, by value: building wire of NEC chapter 9 table 8
// (from memory), and the sizes of IEC 60228 from 1.5 to 630 mm².
func TestSizesByValue(t *testing.T) {
	american := []float64{ // mm²
		2.08, 3.31, 5.26, 8.37, 13.30, 21.15, 26.67, 33.62, 42.41, 53.49, 67.43, 85.01, 107.2,
		126.7, 152.0, 177.3, 202.7, 253.4, 304.0, 354.7, 380.0, 405.4, 456.0, 506.7,
	}
	metric := []float64{1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300, 400, 500, 630}
	for c, want := range map[Convention][]float64{NorthAmerican: american, IEC: metric} {
		got := sizesIn(c)
		if len(got) != len(want) {
			t.Errorf("%s: got %d sizes, want %d", c, len(got), len(want))
			continue
		}
		for i := range got {
			if !within(got[i]*1e6, want[i], 1e-3) { // the tables have four figures
				t.Errorf("%s: got %.4g mm², want %.4g", c, got[i]*1e6, want[i])
			}
		}
	}
}

// Each size of a picker is written as a size, and read back as the same area.
func TestSizesRoundTrip(t *testing.T) {
	for _, c := range []Convention{NorthAmerican, IEC} {
		for _, size := range sizesIn(c) {
			text := Format(size, Area, c)
			if got, err := Parse(text, Area, c); err != nil || !within(got, size, 1e-12) {
				t.Errorf("%s %q: got %g, %v, want %g", c, text, got, err, size)
			}
		}
	}
}

func TestNoMetricSizeIsTakenForAGauge(t *testing.T) {
	for _, size := range sizesIn(IEC) {
		if name, ok := gaugeName(size, shownTolerance); ok {
			t.Errorf("%g m² is shown as %s, want mm²", size, name)
		}
	}
}

// sizesIn returns the usual cross-sections in m², smallest first: 14 AWG to
// 1000 kcmil, or 1.5 to 630 mm². The slice is the caller's.
func sizesIn(c Convention) []float64 {
	var sizes []float64
	if c == IEC {
		for _, s := range metricSizes {
			sizes = append(sizes, s*squareMillimetre.worth)
		}
		return sizes
	}
	for _, n := range pickedGauges {
		sizes = append(sizes, AWGArea(n))
	}
	for _, k := range kcmilSizes {
		if k <= largestPicked {
			sizes = append(sizes, k*kcmil.worth)
		}
	}
	return sizes
}
