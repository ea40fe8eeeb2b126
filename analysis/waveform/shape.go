package waveform

import "math"

// Form is the formula of a Shape.
type Form uint8

// The formulas: A is the Scale of the shape, f its Frequency. Of the zero Form
// is a shape that is zero.
const (
	Exponential Form = iota + 1 // A (1 - e^(-t/Rise)) e^(-t/Fall)
	Ringing                     // A (1 - e^(-t/Rise)) e^(-t/Fall) cos(2 pi f t)
	Cubic                       // A t^3 e^(-t/Fall), A in s^-3
	Heidler                     // A x^10/(1+x^10) e^(-t/Fall), x = t/Rise
)

// Shape is a surge as a function of time, with a crest of 1 but for the
// rounding of its constants, at most 0.2 %. It is zero before the time 0.
type Shape struct {
	Name        string  // as standards write it: "1.2/50" is in microseconds
	Form        Form    // formula
	Scale       float64 // A of the formula, no unit; s^-3 if Cubic
	Rise        float64 // s, time constant of the beginning; not in Cubic
	Fall        float64 // s, time constant of the end, finite
	Frequency   float64 // Hz, Ringing only
	Front, Tail float64 // s, nominal front and time to half; a Tail of 0 if none is defined
}

// At returns the value at a time in seconds. It is finite for every time that
// is a number, and zero where the surge has not begun or is long over.
func (s Shape) At(t float64) float64 {
	if t <= 0 {
		return 0
	}
	decay := math.Exp(-t / s.Fall)
	if decay == 0 { // the other factors may overflow
		return 0
	}
	switch s.Form {
	case Exponential:
		return s.Scale * s.growth(t) * decay
	case Ringing:
		return s.Scale * s.growth(t) * decay * math.Cos(2*math.Pi*s.Frequency*t)
	case Cubic:
		return s.Scale * t * t * t * decay
	case Heidler:
		return s.Scale * s.heidlerGrowth(t) * decay
	}
	return 0
}

// growth returns the factor with which exponential forms begin.
func (s Shape) growth(t float64) float64 { return -math.Expm1(-t / s.Rise) }

// heidlerGrowth returns x^10/(1+x^10), written so that it is 0 and not 0/0
// when t is very small.
func (s Shape) heidlerGrowth(t float64) float64 {
	inverse := s.Rise / t
	square := inverse * inverse
	fourth := square * square
	return 1 / (1 + fourth*fourth*square)
}
