package transient

// fire has the gap fire that reaches its sparkover voltage first within step k,
// if one does. The voltages of that instant count for the peaks. The step is
// then taken anew in two halves, the gap firing where it is nearest to that
// instant: at the start, the middle or the end. A step that was made of halves
// already is kept, and the gap fires at its end. It returns false where no
// solution was found.
func (c *cluster) fire(k int, halves bool) bool {
	l, share := c.firing()
	if l == nil {
		return true
	}
	for _, b := range c.buses {
		b.peek(c, share, k)
	}
	c.restart = true // a half by the backward Euler rule is not enough after a jump
	switch {
	case halves || share > 0.75:
		l.fire(c)
		return true
	case share > 0.25:
		c.leave(true)
		if !c.half(k, 1) {
			return false
		}
		l.fire(c)
	default:
		l.fire(c)
		c.restart = false
		c.leave(true)
		if !c.half(k, 1) {
			return false
		}
	}
	return c.half(k, 2)
}

// firing returns the gap that reaches its sparkover voltage first, and at which
// share of the step, or nil.
func (c *cluster) firing() (first *limiter, share float64) {
	for i := range c.limiters {
		l := &c.limiters[i]
		if l.gap == nil || l.fired {
			continue
		}
		v := c.v[l.a] - c.v[l.b]
		size, old := max(v, -v), max(l.before, -l.before)
		if size < l.gap.Sparkover {
			continue
		}
		if at := min(1, max(0, (l.gap.Sparkover-old)/(size-old))); first == nil || at < share {
			first, share = l, at
		}
	}
	return first, share
}

func (l *limiter) fire(c *cluster) {
	l.fired, l.held, l.carried, l.curve = true, false, 0, l.shut
	l.move(0)
	c.newton.stale = true
}

// opens has the arc go out where its current, once held, falls below what holds
// it, or turns.
func (l *limiter) opens(i float64) bool {
	switch carries := max(i, -i) >= l.gap.Hold && i*l.carried >= 0; {
	case l.gap.Hold == 0:
		return false
	case carries:
		l.held, l.carried = true, i
		return false
	case !l.held:
		return false
	}
	l.fired, l.curve = false, l.open
	l.move(0)
	return true
}
