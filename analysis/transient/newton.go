package transient

import "math"

// newton keeps what is needed to solve for the nodes that limiters touch.
type newton struct {
	stale  bool      // the pieces have changed since the factors were made
	steps  int       // since they were made
	bounds []bound   // of the pieces
	live   []int     // limiters of which something must be kept at each step
	factor []float64 // of red plus the limiters' conductances
	want   []float64 // A, what is driven into the nodes, seen through the linear ones
	rest   []float64 // A, want less the offsets of the limiters
	v, old []float64 // V, by node and earth
}

// bound is between which voltages a limiter is on its piece.
type bound struct {
	a, b      int // among the nodes that limiters touch
	low, high float64
}

func (n *newton) init(non int) {
	n.factor = make([]float64, non*non)
	n.want, n.rest = make([]float64, fours(non)), make([]float64, fours(non))
	n.v, n.old = make([]float64, non+1), make([]float64, non+1)
}

// factor makes the factors for the present pieces.
func (c *cluster) factor() bool {
	n, m := c.non, c.newton.factor
	copy(m, c.red)
	c.newton.bounds, c.newton.live = c.newton.bounds[:0], c.newton.live[:0]
	for k := range c.limiters {
		l := &c.limiters[k]
		a, b := l.a-c.lin, l.b-c.lin
		c.newton.bounds = append(c.newton.bounds, bound{a, b, l.low, l.high})
		if !l.rests() {
			c.newton.live = append(c.newton.live, k)
		}
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
	c.newton.stale, c.newton.steps = false, 0
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
	if c.non > 0 {
		if c.wanted(); !c.solveLimited() {
			return false
		}
	}
	c.linearVolts()
	return true
}

// wanted finds what is driven into the nodes that limiters touch.
func (c *cluster) wanted() {
	want := c.newton.want
	c.back.times(want, c.inj)
	for i, driven := range c.inj[c.lin:c.n] {
		want[i] = driven - want[i]
	}
}

// linearVolts finds the voltages of the linear nodes from those of the others.
func (c *cluster) linearVolts() {
	copy(c.inj[c.lin:c.n], c.v[c.lin:c.n])
	c.mix.times(c.room, c.inj)
	copy(c.v[:c.lin], c.room)
}

// solveLimited finds the voltages of the nodes that limiters touch.
func (c *cluster) solveLimited() bool {
	n := &c.newton
	for round := range plainRounds + cutRounds {
		if n.stale && !c.factor() {
			return false
		}
		c.linearSolution()
		switch {
		case c.within(n.v), round >= lateRounds && c.nearby():
			return c.acceptLimited()
		case round < plainRounds:
			c.follow()
		default:
			if round == plainRounds {
				copy(n.old[:c.non], c.v[c.lin:c.n])
			}
			c.cut()
		}
	}
	return false
}

// linearSolution solves for the present pieces as if they had no ends.
func (c *cluster) linearSolution() {
	n := &c.newton
	c.offsets(n.rest)
	for i := range c.non {
		n.v[i] = n.want[i] + n.rest[i]
	}
	substitute(n.v[:c.non], n.factor)
}

// offsets finds what the limiters drive in at no voltage, by their pieces.
func (c *cluster) offsets(out []float64) {
	clear(out)
	for k := range c.limiters {
		l := &c.limiters[k]
		if l.offset == 0 {
			continue
		}
		if a := l.a - c.lin; a < c.non {
			out[a] -= l.offset
		}
		if b := l.b - c.lin; b < c.non {
			out[b] += l.offset
		}
	}
}

// within reports whether every limiter is on the piece that voltages lie on.
func (c *cluster) within(volts []float64) bool {
	for k := range c.newton.bounds {
		b := &c.newton.bounds[k]
		if v := volts[b.a] - volts[b.b]; !(v >= b.low && v <= b.high) {
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
