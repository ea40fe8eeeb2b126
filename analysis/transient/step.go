package transient

// newRows makes room for the steps of a block.
func (c *cluster) newRows() {
	c.width = fours(c.n + 1)
	c.room = make([]float64, fours(c.lin))
	rows := make([]float64, 2*(block+1)*c.width)
	c.volts, c.drive = rows[:len(rows)/2], rows[len(rows)/2:]
	c.look(0)
}

// look turns to a step of the block.
func (c *cluster) look(at int) {
	from := at * c.width
	c.at, c.v, c.inj = at, c.volts[from:from+c.n+1:from+c.width], c.drive[from:from+c.n+1:from+c.width]
}

// before returns the voltages of the step before.
func (c *cluster) before() []float64 { return c.volts[(c.at-1)*c.width:][:c.n+1] }

// run takes the steps after done up to last, a block at most. It returns the one for
// which no solution was found, or 0. What lines bring is known for all of them, and
// what they take away is needed after all.
func (c *cluster) run(done, last int) int {
	n := last - done
	copy(c.volts[:c.width], c.v)
	clear(c.drive[c.width : (n+1)*c.width])
	for _, e := range c.ends {
		e.arrive(c, n)
	}
	for at := 1; at <= n; at++ {
		if f := c.fused; f != nil && f.plain && !c.restart {
			f.rest(c, at, n)
			break
		}
		c.look(at)
		if !c.step(done + at) {
			return done + at
		}
	}
	c.look(n)
	for _, e := range c.ends {
		e.leave(c, n)
	}
	for _, b := range c.buses {
		b.look(c, done, n)
	}
	for _, t := range c.traces {
		for at := 1; at <= n; at++ {
			row := c.volts[at*c.width:]
			t.values[done+at] = row[t.from] - row[t.to]
		}
	}
	c.heat(done, n)
	return 0
}

// gather returns the voltages of m nodes in the n steps of the block, four to a row.
func (c *cluster) gather(node *[4]int, m, n int) []float64 {
	out := &c.gathered
	for i := range n {
		row := c.volts[(i+1)*c.width:]
		for k := range m {
			out[4*i+k] = row[node[k]]
		}
		for k := m; k < 4; k++ {
			out[4*i+k] = 0
		}
	}
	return out[:4*n]
}

// step takes step k, at which the cluster looks. It returns false where no solution
// was found.
func (c *cluster) step(k int) bool {
	copy(c.v, c.before())
	halves := c.restart
	c.restart = false
	if halves && !c.halves(k) || !halves && !c.whole(k) {
		return false
	}
	if c.gaps && !c.fire(k, halves) {
		return false
	}
	c.after(k)
	return true
}

// whole takes step k by the trapezoidal rule.
func (c *cluster) whole(k int) bool {
	for i := range c.sources {
		c.sources[i].before(c, k)
	}
	if c.fused != nil {
		return c.fused.solve(c)
	}
	for _, m := range c.memory {
		recall(m, c.inj)
	}
	return c.solve()
}

// halves takes step k in two halves.
func (c *cluster) halves(k int) bool {
	c.leave(false)
	return c.half(k, 1) && c.half(k, 2)
}

// leave goes over to the elements from what is fused.
func (c *cluster) leave(taken bool) {
	if c.fused != nil {
		c.fused.leave(c, taken)
	}
}

// half takes one half of step k by the backward Euler rule.
func (c *cluster) half(k, which int) bool {
	clear(c.inj)
	from, time := c.v, (float64(k)-1+float64(which)/2)*c.h
	if which == 1 {
		from = c.before()
	}
	for _, m := range c.memory {
		m.half(from)
		m.drive(c.inj)
	}
	for i := range c.sources {
		c.sources[i].beforeHalf(c, time)
	}
	for _, e := range c.ends {
		e.again(c, c.at, which == 1)
	}
	if !c.solve() {
		return false
	}
	if which == 1 {
		c.remember()
	}
	return true
}

// remember has the elements take over the voltages.
func (c *cluster) remember() {
	for _, m := range c.memory {
		m.after(c.v)
	}
}

// after takes over the accepted voltages of step k.
func (c *cluster) after(k int) {
	if c.fused == nil || c.fused.steps == 0 {
		c.remember()
	}
	for _, i := range c.newton.live {
		power, opens := c.limiters[i].after(c, k)
		c.limited += power * c.h
		if opens {
			c.restart, c.newton.stale = true, true
		}
	}
}
