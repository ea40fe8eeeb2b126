package protector

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// A name says the kind, the diameter and the rated voltage. Parts of one ceramic have
// a capacitance that goes with the area and against the voltage, which is a matter of
// thickness: some 0.55 µF V/m² (textbook plate capacitor; 30 % for kind and make).
func TestPublishedAreWhatTheirNamesSay(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range Published() {
		kind := "disc"
		if m.Block {
			kind = "block"
		}
		if want := fmt.Sprintf("%s %g mm, %g V", kind, math.Round(m.Diameter*1e6)/1e3, m.Rated); m.Name != want || seen[want] {
			t.Errorf("%q is a %s", m.Name, want)
		}
		seen[m.Name] = true
		area := math.Pi / 4 * m.Diameter * m.Diameter
		if got := m.Farads * m.Rated / area; got < 0.39e-3 || got > 0.72e-3 {
			t.Errorf("%s: %g F V/m²", m.Name, got)
		}
	}
	if len(seen) < 20 || !strings.HasPrefix(Published()[0].Name, "disc") {
		t.Errorf("got %d", len(seen))
	}
}

// Below 1 mA a varistor is a resistance, and there the two parts meet.
func TestResistanceBelowTheKnee(t *testing.T) {
	for _, m := range Published() {
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
