package main

import (
	"math"
	"testing"

	"clampline/analysis/spice"
)

func TestWhatMayDiffer(t *testing.T) {
	tests := []struct {
		name         string
		kind         spice.Kind
		ours, theirs float64
		want         bool
	}{
		{"voltage within 1 %", spice.PeakVolts, 1009, 1000, true},
		{"voltage beyond 1 %", spice.PeakVolts, 1011, 1000, false},
		{"voltage below, beyond 1 %", spice.PeakVolts, 989, 1000, false},
		{"small voltage within 5 V", spice.PeakVolts, 4.9, 0, true},
		{"small voltage beyond 5 V", spice.PeakVolts, 15.2, 10, false},
		{"current within 2 %", spice.PeakAmps, 1019, 1000, true},
		{"current beyond 2 %", spice.PeakAmps, 1021, 1000, false},
		{"small current within 5 A", spice.PeakAmps, 24.9, 20, true},
		{"charge beyond 2 %", spice.Charge, 0.0204, 0.01, false},
		{"small charge within 0.1 mC", spice.Charge, 1.9e-4, 1e-4, true},
		{"energy within 2 %", spice.Energy, 101.9, 100, true},
		{"energy beyond 2 %", spice.Energy, 102.1, 100, false},
		{"small energy within 0.05 J", spice.Energy, 0.04, 0, true},
		{"small energy beyond 0.05 J", spice.Energy, 0.06, 0, false},
		{"a time is not compared", spice.PeakTime, 1e-5, 2e-5, true},
		{"no number", spice.PeakVolts, math.NaN(), 1000, false},
	}
	for _, test := range tests {
		c := comparison{spice.Measure{Kind: test.kind}, test.ours, test.theirs}
		if got := c.within(); got != test.want {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
}

func TestWorstStrainsItsLimitMost(t *testing.T) {
	volts := comparison{spice.Measure{Name: "volts", Kind: spice.PeakVolts}, 1005, 1000}    // half of what is allowed
	energy := comparison{spice.Measure{Name: "energy", Kind: spice.Energy}, 100.5, 100}     // a quarter
	when := comparison{spice.Measure{Name: "when", Kind: spice.PeakTime}, 1e-5, 2e-5}       // not compared
	current := comparison{spice.Measure{Name: "current", Kind: spice.PeakAmps}, 1100, 1000} // five times
	good := []checkedCase{{comparisons: []comparison{when, energy}}, {comparisons: []comparison{volts}}}
	if _, got, ok := worst(good); !ok || got.Name != "volts" || !within(good) {
		t.Errorf("got %q, %v, within %v; want volts, within", got.Name, ok, within(good))
	}
	bad := append(good, checkedCase{comparisons: []comparison{current}})
	if _, got, ok := worst(bad); !ok || got.Name != "current" || within(bad) {
		t.Errorf("got %q, %v, within %v; want current, not within", got.Name, ok, within(bad))
	}
	if beyond, compared := countBeyond(bad); beyond != 1 || compared != 3 {
		t.Errorf("got %d of %d beyond, want 1 of 3", beyond, compared)
	}
	if _, _, ok := worst([]checkedCase{{comparisons: []comparison{when}}}); ok {
		t.Error("a time was the worst")
	}
}

func TestPercentOfTheSimulatorsNumber(t *testing.T) {
	tests := []struct {
		name         string
		kind         spice.Kind
		ours, theirs float64
		want         string
	}{
		{"above", spice.PeakVolts, 1010, 1000, "1.00"},
		{"below", spice.PeakVolts, 990, 1000, "-1.00"},
		{"the same", spice.PeakVolts, 1000, 1000 + 1e-9, "0.00"},
		{"below the floor", spice.PeakVolts, 4, 1, "-"},
		{"nothing", spice.PeakTime, 1e-6, 0, "-"},
		{"a time", spice.PeakTime, 1.1e-6, 1e-6, "10.00"},
	}
	for _, test := range tests {
		if got := percentCell(comparison{spice.Measure{Kind: test.kind}, test.ours, test.theirs}); got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
	}
}

func TestNumbersAreShownInUsualUnits(t *testing.T) {
	tests := []struct {
		kind spice.Kind
		v    float64
		want string
	}{
		{spice.PeakVolts, 1234.56, "1234.6 V"},
		{spice.PeakVolts, -0.04, "0.0 V"},
		{spice.PeakTime, 1.5e-6, "1.50 µs"},
		{spice.PeakAmps, -12.34, "-12.3 A"},
		{spice.Charge, 0.0123, "12.300 mC"},
		{spice.Energy, 1.5, "1.500 J"},
	}
	for _, test := range tests {
		if got := shown(test.kind, test.v); got != test.want {
			t.Errorf("%s %g: got %q, want %q", test.kind, test.v, got, test.want)
		}
	}
}
