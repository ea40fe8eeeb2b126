package transient

import "slices"

// cluster is a part of the network that is solved by itself within a step. Its
// nodes are numbered from 0, first the lin ones that only linear elements
// touch, then the non others; n stands for earth, whose voltage stays 0.
type cluster struct {
	name        string
	h           float64 // step, s
	n, lin, non int
	v, inj      []float64 // voltage, and current that is driven in, by node and earth
	g           []float64 // conductances, n x n; only while it is built

	mix  []float64 // from what drives the linear nodes and the others' voltages to the linear voltages, lin x n
	back []float64 // from what drives the linear nodes to what that takes from the others, non x lin
	red  []float64 // conductances seen by the other nodes, non x non

	ends       []*lineEnd
	resistors  []resistor
	capacitors []capacitor
	inductors  []inductor
	windings   []winding
	sources    []source
	limiters   []limiter
	newton     newton
	buses      []*bus
	traces     []*trace
	restart    bool // the next step is made of two halves
	gaps       bool // there are some
	unheated   int  // steps whose heat is not accounted for yet
	patience   int  // how many these may be
	sums
}

// sums are what is turned to heat, delivered by sources, and taken back by them, J.
type sums struct{ lost, driven, returned float64 }

// add puts a conductance between two nodes.
func (c *cluster) add(a, b int, g float64) {
	c.put(a, a, g)
	c.put(b, b, g)
	c.put(a, b, -g)
	c.put(b, a, -g)
}

// put adds to one place of the matrix; earth has none.
func (c *cluster) put(row, column int, g float64) {
	if row < c.n && column < c.n {
		c.g[row*c.n+column] += g
	}
}

// whyNot eliminates the linear nodes, or says why that cannot be done.
func (c *cluster) whyNot() string {
	loose := c.isLoose()
	switch {
	case c.reduce():
		return ""
	case loose:
		return "a conductor of it is connected to nothing"
	}
	return "the impedances round it lie too far apart for its voltage to be told, or none leads to earth; look for a figure there that is far too small or too large"
}

// isLoose reports whether a node has no conductance to any other.
func (c *cluster) isLoose() bool {
	for i := range c.n {
		if c.g[i*c.n+i] == 0 {
			return true
		}
	}
	return false
}

// reduce eliminates the linear nodes. It returns false where that cannot be
// done.
func (c *cluster) reduce() bool {
	lin, non, n := c.lin, c.non, c.n
	inv := make([]float64, lin*lin)
	for i := range lin {
		copy(inv[i*lin:(i+1)*lin], c.g[i*n:i*n+lin])
	}
	if !invert(inv, lin) {
		return false
	}
	c.mix, c.back, c.red = make([]float64, lin*n), make([]float64, non*lin), make([]float64, non*non)
	for i := range lin {
		copy(c.mix[i*n:], inv[i*lin:(i+1)*lin])
		for j := range non {
			sum := 0.0
			for k := range lin {
				sum += inv[i*lin+k] * c.g[k*n+lin+j]
			}
			c.mix[i*n+lin+j] = -sum
			c.back[j*lin+i] = sum
		}
	}
	for i := range non {
		for j := range non {
			sum := c.g[(lin+i)*n+lin+j]
			for k := range lin {
				sum -= c.g[(lin+i)*n+k] * c.back[j*lin+k]
			}
			c.red[i*non+j] = sum
		}
	}
	c.g = nil
	c.patience = block
	if len(c.sources) > 0 || slices.ContainsFunc(c.resistors, resistor.conducts) {
		c.patience = 1
	}
	c.newton.init(non)
	return c.factor()
}

// step brings the cluster from step k-1 to step k. It returns false where no
// solution was found.
func (c *cluster) step(k int) bool {
	halves := c.restart
	c.restart = false
	if halves {
		if !c.half(k, 1) || !c.half(k, 2) {
			return false
		}
	} else {
		c.before(k)
		if !c.solve() {
			return false
		}
	}
	if c.gaps && !c.fire(k, halves) {
		return false
	}
	c.after(k)
	return true
}

// half takes one half of a step by the backward Euler rule.
func (c *cluster) half(k, which int) bool {
	c.clear()
	time := (float64(k) - 1 + float64(which)/2) * c.h
	for i := range c.capacitors {
		c.capacitors[i].beforeHalf(c)
	}
	for i := range c.inductors {
		c.inductors[i].beforeHalf(c)
	}
	for i := range c.windings {
		c.windings[i].beforeHalf(c)
	}
	for i := range c.sources {
		c.sources[i].beforeHalf(c, time)
	}
	for _, e := range c.ends {
		if which == 1 {
			e.beforeHalf(c)
		} else {
			e.before(c)
		}
	}
	if !c.solve() {
		return false
	}
	if which == 1 {
		c.updateStorage()
	}
	return true
}

// before drives in the currents that the past leads to.
func (c *cluster) before(k int) {
	c.clear()
	for i := range c.capacitors {
		c.capacitors[i].before(c)
	}
	for i := range c.inductors {
		c.inductors[i].before(c)
	}
	for i := range c.windings {
		c.windings[i].before(c)
	}
	for i := range c.sources {
		c.sources[i].before(c, k)
	}
	for _, e := range c.ends {
		e.before(c)
	}
}

func (c *cluster) clear() {
	for i := range c.inj {
		c.inj[i] = 0
	}
}

// updateStorage takes the currents of the storing elements from the voltages.
func (c *cluster) updateStorage() {
	for i := range c.capacitors {
		c.capacitors[i].after(c)
	}
	for i := range c.inductors {
		c.inductors[i].after(c)
	}
	for i := range c.windings {
		c.windings[i].after(c)
	}
}

// after takes over the accepted voltages of step k.
func (c *cluster) after(k int) {
	c.updateStorage()
	for _, e := range c.ends {
		e.after(c)
	}
	for i := range c.limiters {
		power, opens := c.limiters[i].after(c, k)
		c.lost += power * c.h
		if opens {
			c.restart, c.newton.stale = true, true
		}
	}
	for _, b := range c.buses {
		b.after(c, k)
	}
	if c.unheated++; c.unheated >= c.patience {
		c.sums, c.unheated = c.heated(), 0
	}
}

// heated returns the sums with what the steps since they were last made have turned
// to heat in resistances and taken from sources. Where there are only lines,
// inductors and insulation, with their little resistances, once in a block is enough.
func (c *cluster) heated() sums {
	out, span := c.sums, float64(c.unheated)*c.h
	lost := 0.0
	for _, e := range c.ends {
		lost += e.power()
	}
	for i := range c.resistors {
		lost += c.resistors[i].power(c)
	}
	for i := range c.inductors {
		lost += c.inductors[i].power()
	}
	for i := range c.windings {
		lost += c.windings[i].power()
	}
	for i := range c.sources {
		driven, own := c.sources[i].power(c)
		out.driven += max(driven, 0) * span
		out.returned += max(-driven, 0) * span
		lost += own
	}
	out.lost += lost * span
	return out
}
