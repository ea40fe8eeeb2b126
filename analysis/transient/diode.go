package transient

import "clampline/analysis/circuit"

// The pieces of a diode.
const (
	blocks   = 0
	conducts = 1
)

// newDiode has two pieces that meet at no voltage. Its curve is that of the one
// that conducts.
func newDiode(a, b int, x circuit.Diode) limiter {
	l := limiter{a: a, b: b, diode: &x, curve: &circuit.Curve{Volts: []float64{0, 1}, Amps: []float64{0, 1 / x.On}}}
	l.turn(blocks)
	return l
}

// diodeSlip is how far the voltage of a diode may pass the end of a piece, V:
// the last digits of tens of kilovolts. There is no jump of current there.
const diodeSlip = 1e-9

// turn goes to a piece of a diode.
func (l *limiter) turn(piece int) {
	l.piece = piece
	if piece == conducts {
		l.g, l.low, l.high = 1/l.diode.On, -diodeSlip, unbounded
	} else {
		l.g, l.low, l.high = 1/l.diode.Off, -unbounded, diodeSlip
	}
}

// pieceAt returns the piece of a diode at a voltage.
func (l *limiter) pieceAt(v float64) int {
	if v > 0 {
		return conducts
	}
	return blocks
}

// current returns the current by the whole curve at a voltage, A.
func (l *limiter) current(v float64) float64 {
	if l.diode != nil && v < 0 {
		return v / l.diode.Off
	}
	return l.curve.Current(v)
}

// turnedOff takes over the accepted piece of a diode and reports whether the
// step has ended its current: an inductance in series with it would ring by the
// trapezoidal rule.
func (l *limiter) turnedOff() bool {
	was := l.fired
	l.fired = l.piece == conducts
	return was && !l.fired
}
