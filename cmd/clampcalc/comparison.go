package main

import (
	"math"

	"clampline/analysis/spice"
)

// comparison is a number found twice, SI.
type comparison struct {
	spice.Measure
	ours, theirs float64
}

// limit is how far two numbers of one kind may differ.
type limit struct {
	share float64 // of the simulator's
	floor float64 // SI; differences below it say nothing
}

// limitOf returns the limit of a kind of measure; the zero limit compares
// nothing. Voltages and energies are as the project promises them. A difference
// of 5 A is one of 5 V at an ohm; for as long as an 8/20 lasts it is 0.1 mC.
func limitOf(kind spice.Kind) limit {
	switch kind {
	case spice.PeakVolts:
		return limit{0.01, 5}
	case spice.PeakAmps:
		return limit{0.02, 5}
	case spice.Charge:
		return limit{0.02, 1e-4}
	case spice.Energy:
		return limit{0.02, 0.05}
	}
	return limit{}
}

func (c comparison) difference() float64 { return c.ours - c.theirs }

// percent returns the difference in per cent of the simulator's number, and
// false where that is too small for a share to say anything.
func (c comparison) percent() (float64, bool) {
	if size := math.Abs(c.theirs); size == 0 || size < limitOf(c.Kind).floor {
		return 0, false
	}
	return 100 * c.difference() / math.Abs(c.theirs), true
}

// allowed returns the greatest difference that may be, and false where the
// numbers are not compared: times, and the peak current of a gap, which in its
// first nanoseconds is what the capacitances beside it give, however short the
// step is.
func (c comparison) allowed() (float64, bool) {
	l := limitOf(c.Kind)
	if c.Kind == spice.PeakAmps && c.Varistor < 0 {
		l = limit{}
	}
	return max(l.share*math.Abs(c.theirs), l.floor), l.floor > 0
}

// strain returns the difference as a share of what is allowed: above 1 it is
// too much. It is 0 where the numbers are not compared.
func (c comparison) strain() float64 {
	allowed, compared := c.allowed()
	if !compared {
		return 0
	}
	strain := math.Abs(c.difference()) / allowed
	if math.IsNaN(strain) {
		return math.Inf(1)
	}
	return strain
}

func (c comparison) within() bool { return c.strain() <= 1 }

// within reports whether all numbers of all cases agree.
func within(cases []checkedCase) bool {
	beyond, _ := countBeyond(cases)
	return beyond == 0
}

// countBeyond returns how many numbers differ too much, of how many compared.
func countBeyond(cases []checkedCase) (beyond, compared int) {
	for _, c := range cases {
		for _, x := range c.comparisons {
			if _, ok := x.allowed(); ok {
				compared++
			}
			if !x.within() {
				beyond++
			}
		}
	}
	return beyond, compared
}

// worst returns the comparison that strains its limit most, and its case;
// false where nothing is compared.
func worst(cases []checkedCase) (in checkedCase, of comparison, ok bool) {
	for _, c := range cases {
		for _, x := range c.comparisons {
			if _, compared := x.allowed(); compared && (!ok || x.strain() > of.strain()) {
				in, of, ok = c, x, true
			}
		}
	}
	return in, of, ok
}
