package transient

import "clampline/analysis/circuit"

// limiter is a varistor, gap or diode. On the piece of its curve on which it is, its
// current is offset + g v, for voltages from low to high.
type limiter struct {
	a, b        int
	number      int // among the varistors or the gaps
	curve       *circuit.Curve
	piece       int // 0 through the origin, then counted outward, negative below it
	g, offset   float64
	low, high   float64 // with a little slip
	duty        Duty
	idle        bool           // a varistor whose first piece carries nothing that matters
	gap         *circuit.Gap   // nil for all else
	diode       *circuit.Diode // nil for all else
	before      float64        // V across a gap, a step ago
	carried     float64        // A, that a fired gap carried last; its sign turning puts the arc out
	shut, open  *circuit.Curve
	fired, held bool // the gap or diode conducts, and the gap has carried its holding current
}

func newLimiter(a, b, number int, curve *circuit.Curve) limiter {
	l := limiter{a: a, b: b, number: number, curve: curve, idle: curve.Amps[1] <= trickle}
	l.move(0)
	return l
}

// trickle is a current that is nothing beside that of a surge, A: at a kilovolt
// it is 0.2 mJ in a hundred microseconds.
const trickle = 2e-3

// newGap has a curve for each of its two states.
func newGap(a, b, number int, x circuit.Gap) limiter {
	leak := 1 / x.Off
	open := &circuit.Curve{Volts: []float64{0, x.Sparkover}, Amps: []float64{0, x.Sparkover * leak}}
	shut := &circuit.Curve{Volts: []float64{0, x.Arc, x.Arc + x.Ohms}, Amps: []float64{0, x.Arc * leak, 1 + x.Arc*leak}}
	l := newLimiter(a, b, number, open)
	l.gap, l.open, l.shut, l.idle = &x, open, shut, false
	return l
}

// last returns the number of the outermost piece.
func (l *limiter) last() int { return len(l.curve.Volts) - 2 }

// slip is by which share of its voltage an end of a piece may be passed. The
// curve has no jump there, so nothing is lost, and what is not exact in the
// last digits does not send the search to and fro between two pieces.
const slip = 1e-12

// unbounded stands for a voltage that is never reached.
const unbounded = 1e300

// move goes to a piece of the curve.
func (l *limiter) move(piece int) {
	if l.diode != nil {
		l.turn(piece)
		return
	}
	l.piece = piece
	p := max(piece, -piece)
	volts, amps := l.curve.Volts[p:p+2], l.curve.Amps[p:p+2]
	l.g = (amps[1] - amps[0]) / (volts[1] - volts[0])
	l.offset = amps[0] - l.g*volts[0]
	l.low, l.high = volts[0]*(1-slip), volts[1]*(1+slip)
	if p == l.last() {
		l.high = unbounded
	}
	switch {
	case piece == 0:
		l.low = -l.high
	case piece < 0:
		l.offset, l.low, l.high = -l.offset, -l.high, -l.low
	}
}

// toward returns the piece that a voltage lies on, but at most limit pieces
// away from the present one.
func (l *limiter) toward(v float64, limit int) int {
	if l.diode != nil {
		return l.pieceAt(v)
	}
	piece := l.piece
	for range limit {
		up := piece + 1
		switch {
		case v > l.top(piece) && up <= l.last():
			piece = up
		case v < -l.top(-piece) && -piece < l.last():
			piece--
		default:
			return piece
		}
	}
	return piece
}

// top returns the highest voltage of a piece.
func (l *limiter) top(piece int) float64 {
	if piece >= 0 {
		return l.curve.Volts[piece+1]
	}
	return -l.curve.Volts[-piece]
}

// rests reports whether nothing of the limiter needs to be kept.
func (l *limiter) rests() bool { return l.piece == 0 && l.idle }

// after takes over the accepted voltage of step k. It returns the heat, W, and
// whether the arc of a gap goes out or a diode blocks.
func (l *limiter) after(c *cluster, k int) (power float64, opens bool) {
	v := c.v[l.a] - c.v[l.b]
	i := l.offset + l.g*v
	if l.diode != nil {
		return v * i, l.turnedOff()
	}
	l.duty.add(i, v*i, c.h, k)
	if l.gap != nil {
		l.before = v
		opens = l.fired && l.opens(i)
	}
	return v * i, opens
}
