package handrule_test

import (
	"math"
	"testing"

	"clampline/analysis/handrule"
)

// The worked examples 2.15.1 (p. 398) and 2.15.2 (p. 399) of Chakrabarti,
// Soni, Gupta, Bhatnagar, A Textbook on Power System Engineering. The second
// has 11 m of arrester lead at 1.2 µH/m and 5 kA/µs; the book prints 32 m and
// 21.7 m, the rest is its formulas evaluated. 0.1 %: the tables are rounded.
func TestPublishedDistances(t *testing.T) {
	const (
		speed     = 3e8
		steepness = 5e11
		allowed   = 550e3 / 1.2
		arrester  = 351e3
		leadDrop  = 11 * 1.2e-6 * 5e9
	)
	noLead, _ := handrule.AllowedDistance(allowed, arrester, steepness, speed)
	tenPercent, _ := handrule.AllowedDistance(allowed, 1.1*arrester, steepness, speed)
	tests := []struct {
		name      string
		got, want float64
	}{
		{"400 kV, 1000 kV/µs, 30 m", handrule.AtDistance(400e3, 1e12, 30, speed), 600e3},
		{"arrester and lead, 37.7 m", handrule.AtDistance(arrester+leadDrop, steepness, 37.7, speed), 542.7e3},
		{"allowed distance", noLead, 32.2},
		{"allowed distance, 10 % more at the arrester", tenPercent, 21.67},
		{"at twice the arrester's voltage it ends", handrule.AtDistance(400e3, 1e12, 5000, speed), 800e3},
	}
	for _, test := range tests {
		if math.Abs(test.got-test.want) > 1e-3*test.want {
			t.Errorf("%s: got %g, want %g", test.name, test.got, test.want)
		}
	}
}

func TestAllowedDistance(t *testing.T) {
	tests := []struct {
		name                     string
		withstand, ea, steepness float64
		want                     float64
		limited                  bool
	}{
		{"up to the withstand", 1500, 1000, 5e9, 10, true},
		{"twice the level is allowed", 2000, 1000, 5e9, 0, false},
		{"the level is too high already", 900, 1000, 5e9, 0, true},
		{"a flat surge does not rise", 1500, 1000, 0, 0, false},
	}
	for _, test := range tests {
		got, limited := handrule.AllowedDistance(test.withstand, test.ea, test.steepness, 2e8)
		if got != test.want || limited != test.limited {
			t.Errorf("%s: got %g, %v; want %g, %v", test.name, got, limited, test.want, test.limited)
		}
	}
}
