package protector

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// discs are those of the same source with leads, which no panel protector holds: more
// to measure the formula by.
func discs() []Material {
	const (
		mm = 1e-3
		pF = 1e-12
	)
	return []Material{
		{"disc 14 mm, 130 V", 14 * mm, 130, 650 * pF, 2.4073259, 0.0284507, -0.0005436, 0.0060705},
		{"disc 20 mm, 130 V", 20 * mm, 130, 1340 * pF, 2.4011200, 0.0253150, -0.0005975, 0.0051090},
		{"disc 20 mm, 150 V", 20 * mm, 150, 1160 * pF, 2.4654363, 0.0246959, -0.0005738, 0.0053090},
		{"disc 20 mm, 250 V", 20 * mm, 250, 700 * pF, 2.6830619, 0.0261918, -0.0006173, 0.0045183},
		{"disc 20 mm, 275 V", 20 * mm, 275, 630 * pF, 2.7233755, 0.0258453, -0.0005746, 0.0046033},
		{"disc 20 mm, 320 V", 20 * mm, 320, 540 * pF, 2.7954614, 0.0262658, -0.0004941, 0.0046090},
		{"disc 20 mm, 420 V", 20 * mm, 420, 420 * pF, 2.9202063, 0.0253773, -0.0005935, 0.0049609},
		{"disc 20 mm, 550 V", 20 * mm, 550, 320 * pF, 3.0514418, 0.0266902, -0.0006016, 0.0041101},
	}
}

func all() []Material { return append(discs(), Published()...) }

// A name says the kind, the diameter and the rated voltage. Parts of one ceramic have
// a capacitance that goes with the area and against the voltage, which is a matter of
// thickness: some 0.55 mF V/m² (textbook plate capacitor; 30 % for kind and make, 10 %
// among those of one size).
func TestPublishedAreWhatTheirNamesSay(t *testing.T) {
	seen := map[string]bool{}
	least, most := map[string]float64{}, map[string]float64{} // by kind and diameter
	for _, m := range all() {
		kind, _, _ := strings.Cut(m.Name, " ")
		if want := fmt.Sprintf("%s %g mm, %g V", kind, math.Round(m.Diameter*1e6)/1e3, m.Rated); m.Name != want || seen[want] {
			t.Errorf("%q is a %s", m.Name, want)
		}
		seen[m.Name] = true
		area := math.Pi / 4 * m.Diameter * m.Diameter
		if got := m.Farads * m.Rated / area; got < 0.39e-3 || got > 0.72e-3 {
			t.Errorf("%s: %g F V/m²", m.Name, got)
		}
		size, _, _ := strings.Cut(m.Name, ",")
		got := m.Farads * m.Rated / area
		most[size] = max(most[size], got)
		if least[size] == 0 || got < least[size] {
			least[size] = got
		}
		if most[size] > 1.1*least[size] {
			t.Errorf("%s: others of the size have %g to %g F V/m²", m.Name, least[size], most[size])
		}
	}
	if len(seen) != 20 {
		t.Errorf("got %d", len(seen))
	}
}

// Below 1 mA a varistor is a resistance, and there the two parts meet.
func TestResistanceBelowTheKnee(t *testing.T) {
	for _, m := range all() {
		at := m.Voltage(1e-3)
		for _, share := range []float64{0, 0.25, 0.5, 0.9} {
			if got := m.Voltage(share * 1e-3); math.Abs(got-share*at) > 1e-9*at {
				t.Errorf("%s at %g mA: got %g V, want %g", m.Name, share, got, share*at)
			}
		}
		if next := m.Voltage(1.0001e-3); math.Abs(next/at-1) > 1e-3 {
			t.Errorf("%s: %g V at 1 mA and %g V just above", m.Name, at, next)
		}
	}
}

func TestBetweenInProportion(t *testing.T) {
	for _, row := range []struct{ x0, x1, x, y0, y1, want float64 }{{1, 3, 1, 10, 20, 10}, {1, 3, 3, 10, 20, 20}, {1, 3, 1.5, 10, 20, 12.5}, {-4, -2, -3, 5, 1, 3}} {
		if got := between(row.x0, row.x1, row.x, row.y0, row.y1); got != row.want {
			t.Errorf("%+v: got %g", row, got)
		}
	}
}
