package waveform_test

import (
	"math"
	"testing"

	"clampline/analysis/waveform"
)

// times returns times of every magnitude from 1e-30 s to 1 s, and beyond what
// a formula can take without care.
func times() []float64 {
	all := []float64{0, math.SmallestNonzeroFloat64, 1e30, math.MaxFloat64, math.Inf(1)}
	for exponent := -30.0; exponent <= 0; exponent += 0.01 {
		all = append(all, math.Pow(10, exponent))
	}
	return all
}

func TestShapeIsFiniteAtAllTimes(t *testing.T) {
	for _, s := range shapes() {
		for _, at := range times() {
			if v := s.At(at); !(math.Abs(v) <= 1.002) { // constants rounded: 1.0013 at most
				t.Errorf("%s at %g s: got %g, want no more than the crest", s.Name, at, v)
			}
			if v := s.At(-at); v != 0 {
				t.Errorf("%s at %g s: got %g, want 0 before it begins", s.Name, -at, v)
			}
		}
	}
}

func TestShapeEnds(t *testing.T) {
	for _, s := range shapes() {
		for _, at := range []float64{1, 1e300, math.Inf(1)} {
			if v := s.At(at); !(math.Abs(v) < 1e-300) {
				t.Errorf("%s at %g s: got %g, want nothing left", s.Name, at, v)
			}
		}
	}
}

func TestShapeOfNoTimeIsNoNumber(t *testing.T) {
	if v := waveform.Voltage1_2x50().At(math.NaN()); !math.IsNaN(v) {
		t.Errorf("at NaN: got %g, want NaN", v)
	}
}

func TestZeroShapeIsZero(t *testing.T) {
	var zero waveform.Shape
	for _, at := range times() {
		if v := zero.At(at); v != 0 {
			t.Errorf("at %g s: got %g, want 0", at, v)
		}
	}
}

// The formulas, written out once more in the plainest way, each field in its
// place: a field that is ignored fails.
func TestFormulas(t *testing.T) {
	s := waveform.Shape{Scale: 3, Rise: 2e-6, Fall: 5e-6, Frequency: 70e3}
	const at = 4e-6
	growth, decay := 1-math.Exp(-at/2e-6), math.Exp(-at/5e-6)
	tests := []struct {
		form waveform.Form
		want float64
	}{
		{waveform.Exponential, 3 * growth * decay},
		{waveform.Ringing, 3 * growth * decay * math.Cos(2*math.Pi*70e3*at)},
		{waveform.Cubic, 3 * math.Pow(at, 3) * decay},
		{waveform.Heidler, 3 * math.Pow(2, 10) / (1 + math.Pow(2, 10)) * decay},
		{0, 0},
		{waveform.Heidler + 1, 0},
	}
	for _, test := range tests {
		s.Form = test.form
		// Rounding of the order of operations only.
		if got := s.At(at); math.Abs(got-test.want) > 1e-14*math.Abs(test.want) {
			t.Errorf("form %d: got %.17g, want %.17g", test.form, got, test.want)
		}
	}
}

func TestAtDoesNotAllocate(t *testing.T) {
	s, sum := waveform.Ring100kHz(), 0.0
	if n := testing.AllocsPerRun(100, func() { sum += s.At(3e-6) }); n != 0 {
		t.Errorf("got %g allocations, want none in what is called at every step", n)
	}
}
