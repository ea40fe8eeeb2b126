package waveform

import (
	"math"
)

// Trace is a wave that is sampled at equal steps, straight between samples.
type Trace struct {
	Start  float64   // s, time of the first value
	Step   float64   // s from value to value, above zero
	Values []float64 // V or A, finite
}

// Sample returns n values of a shape, the first at the time 0; step in s.
func Sample(s Shape, step float64, n int) Trace {
	values := make([]float64, n)
	for i := range values {
		values[i] = s.At(float64(i) * step)
	}
	return Trace{Step: step, Values: values}
}

// time returns the time of a place among the values, which may be between two.
func (t Trace) time(place float64) float64 { return t.Start + place*t.Step }

// Charge returns the integral over time by the trapezoidal rule: C if the
// values are A.
func (t Trace) Charge() float64 {
	return t.integral(func(i int) float64 { return t.Values[i] })
}

// Action returns the integral of the squares by the trapezoidal rule: A2s,
// which is J/ohm, if the values are A.
func (t Trace) Action() float64 {
	return t.integral(func(i int) float64 { return t.Values[i] * t.Values[i] })
}

// integral sums a quantity that is given at every value of the trace.
func (t Trace) integral(quantity func(int) float64) float64 {
	last := len(t.Values) - 1
	if last < 1 {
		return 0
	}
	sum := (quantity(0) + quantity(last)) / 2
	for i := 1; i < last; i++ {
		sum += quantity(i)
	}
	return sum * t.Step
}

// Peak returns the value of greatest magnitude, with its sign, and its time,
// the earliest if there are several. It is one of the values as they are: no
// curve is laid through them, which would invent crests where a protector
// cuts a wave off. An empty trace has the peak 0 at its Start.
func (t Trace) Peak() (value, at float64) {
	if len(t.Values) == 0 {
		return 0, t.Start
	}
	i := t.crest()
	return t.Values[i], t.time(float64(i))
}

// crest returns the place of the first value of greatest magnitude.
func (t Trace) crest() int {
	crest := 0
	for i, v := range t.Values {
		if math.Abs(v) > math.Abs(t.Values[crest]) {
			crest = i
		}
	}
	return crest
}

// SteepestSlope returns the slope of greatest magnitude between two neighbours,
// with its sign, in V/s or A/s, and the time midway between them. Without two
// values it is 0 at the Start.
func (t Trace) SteepestSlope() (slope, at float64) {
	at = t.Start
	for i := 1; i < len(t.Values); i++ {
		if s := (t.Values[i] - t.Values[i-1]) / t.Step; math.Abs(s) > math.Abs(slope) {
			slope, at = s, t.time(float64(i)-0.5)
		}
	}
	return slope, at
}
