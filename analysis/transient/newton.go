package transient

import (
	"math"

	"clampline/analysis/circuit"
)

// newton keeps what is needed to solve for the nodes that limiters touch.
type newton struct {
	stale  bool      // the pieces have changed since the factors were made
	factor []float64 // of red plus the limiters' conductances
	want   []float64 // A, what is driven into the nodes, seen through the linear ones
	rest   []float64 // A, want less the offsets of the limiters
	v, old []float64 // V, by node and earth
}

func (n *newton) init(non int) {
	n.factor = make([]float64, non*non)
	n.want, n.rest = make([]float64, non), make([]float64, non)
	n.v, n.old = make([]float64, non+1), make([]float64, non+1)
}

// factor makes the factors for the present pieces.
func (c *cluster) factor() bool {
	n, m := c.non, c.newton.factor
	copy(m, c.red)
	for k := range c.limiters {
		l := &c.limiters[k]
		a, b := l.a-c.lin, l.b-c.lin
		if a < n {
			m[a*n+a] += l.g
		}
		if b < n {
			m[b*n+b] += l.g
		}
		if a < n && b < n {
			m[a*n+b] -= l.g
			m[b*n+a] -= l.g
		}
	}
	c.newton.stale = false
	return factorize(m, n)
}

// Limits of Newton's method. A curve of a 25th power overshoots: a step moves
// by a few pieces at most. Where that has not led to the end after a while,
// each further step is cut where the power along it is least, which cannot
// fail for rising curves but for the last digits; so the end is taken less
// exactly after a while more.
const (
	stride      = 6
	plainRounds = 60
	lateRounds  = plainRounds + 20
	cutRounds   = 400
)

// solve finds the voltages for what is driven in. It returns false where there
// is no end to the search.
func (c *cluster) solve() bool {
	if c.non > 0 && !c.solveLimited() {
		return false
	}
	if c.lin == circuit.MaxConductors && c.non == 0 {
		c.solveFour()
		return true
	}
	copy(c.inj[c.lin:c.n], c.v[c.lin:c.n])
	multiply(c.v[:c.lin], c.mix, c.inj[:c.n])
	return true
}

// solveFour is the solution for four linear nodes, written out.
func (c *cluster) solveFour() {
	g, x, v := (*[16]float64)(c.mix), (*[4]float64)(c.inj), (*[4]float64)(c.v)
	x0, x1, x2, x3 := x[0], x[1], x[2], x[3]
	v[0] = (g[0]*x0 + g[1]*x1) + (g[2]*x2 + g[3]*x3)
	v[1] = (g[4]*x0 + g[5]*x1) + (g[6]*x2 + g[7]*x3)
	v[2] = (g[8]*x0 + g[9]*x1) + (g[10]*x2 + g[11]*x3)
	v[3] = (g[12]*x0 + g[13]*x1) + (g[14]*x2 + g[15]*x3)
}

// solveLimited finds the voltages of the nodes that limiters touch.
func (c *cluster) solveLimited() bool {
	n := &c.newton
	multiply(n.want, c.back, c.inj[:c.lin])
	for i, driven := range c.inj[c.lin:c.n] {
		n.want[i] = driven - n.want[i]
	}
	copy(n.old[:c.non], c.v[c.lin:c.n])
	for round := range plainRounds + cutRounds {
		if n.stale && !c.factor() {
			return false
		}
		c.linearSolution()
		switch {
		case c.within(), round >= lateRounds && c.nearby():
			return c.acceptLimited()
		case round < plainRounds:
			c.follow()
		default:
			c.cut()
		}
	}
	return false
}

// linearSolution solves for the present pieces as if they had no ends.
func (c *cluster) linearSolution() {
	n, size := &c.newton, c.non
	copy(n.rest, n.want)
	for k := range c.limiters {
		l := &c.limiters[k]
		if l.offset == 0 {
			continue
		}
		if a := l.a - c.lin; a < size {
			n.rest[a] -= l.offset
		}
		if b := l.b - c.lin; b < size {
			n.rest[b] += l.offset
		}
	}
	copy(n.v, n.rest)
	substitute(n.v[:size], n.factor)
}

// within reports whether every limiter is on the piece that its new voltage
// lies on.
func (c *cluster) within() bool {
	for k := range c.limiters {
		l := &c.limiters[k]
		if v := c.across(l, c.newton.v); !(v >= l.low && v <= l.high) {
			return false
		}
	}
	return true
}

// nearby does so with a wider slip.
func (c *cluster) nearby() bool {
	const wide = 1e-7
	for k := range c.limiters {
		l := &c.limiters[k]
		v := c.across(l, c.newton.v)
		if !(v >= l.low-wide*math.Abs(l.low) && v <= l.high+wide*math.Abs(l.high)) {
			return false
		}
	}
	return true
}

// follow moves every limiter toward the piece of its new voltage.
func (c *cluster) follow() {
	for k := range c.limiters {
		l := &c.limiters[k]
		if piece := l.toward(c.across(l, c.newton.v), stride); piece != l.piece {
			l.move(piece)
		}
	}
	c.newton.stale = true
}

// across returns the voltage across a limiter, whose nodes are never linear.
func (c *cluster) across(l *limiter, v []float64) float64 { return v[l.a-c.lin] - v[l.b-c.lin] }

// cut goes from the old voltages toward the new ones as far as the power along
// the way falls, which is where the currents that are left over do no work
// along it, and moves every limiter to its piece there. Where that is the end
// of a piece, the one beyond is taken.
func (c *cluster) cut() {
	n := &c.newton
	low, high := 0.0, 1.0
	for range 60 {
		if middle := (low + high) / 2; c.slope(middle) > 0 {
			high = middle
		} else {
			low = middle
		}
	}
	const beyond = 1e-9
	for k := range c.limiters {
		l := &c.limiters[k]
		old, fresh := c.across(l, n.old), c.across(l, n.v)
		if piece := l.toward(old+(high+beyond)*(fresh-old), 2*len(l.curve.Volts)); piece != l.piece {
			l.move(piece)
		}
	}
	for i := range n.v {
		n.old[i] += high * (n.v[i] - n.old[i])
	}
	n.stale = true
}

// slope returns the work, per share of the way, of the currents that are left
// over at a share of the way from the old to the new voltages.
func (c *cluster) slope(share float64) float64 {
	n, size := &c.newton, c.non
	sum := 0.0
	for i := range size {
		left := -n.want[i]
		for j, g := range c.red[i*size : i*size+size] {
			left += g * (n.old[j] + share*(n.v[j]-n.old[j]))
		}
		sum += left * (n.v[i] - n.old[i])
	}
	for k := range c.limiters {
		l := &c.limiters[k]
		old, fresh := c.across(l, n.old), c.across(l, n.v)
		sum += l.current(old+share*(fresh-old)) * (fresh - old)
	}
	return sum
}

// acceptLimited takes over the voltages, unless they are no numbers.
func (c *cluster) acceptLimited() bool {
	for i, v := range c.newton.v[:c.non] {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
		c.v[c.lin+i] = v
	}
	return true
}
