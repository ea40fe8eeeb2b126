package transient

import (
	"cmp"
	"slices"

	"clampline/analysis/circuit"
)

// cluster is a part of the network that is solved by itself within a step. Its
// nodes are numbered from 0, first the lin ones that only linear elements
// touch, then the non others; n stands for earth, whose voltage stays 0.
type cluster struct {
	name        string
	h           float64 // step, s
	n, lin, non int
	g           []float64 // conductances, n x n; only while it is built

	width        int       // of a row: the nodes and earth, up to a whole number of fours
	volts, drive []float64 // V, and A that is driven in, by step of a block, from the end of the one before it; a row each
	at           int       // the step of the block
	v, inj       []float64 // the rows of that

	mix  panel     // from what drives the linear nodes and the others' voltages to the linear voltages, lin x n
	back panel     // from what drives the linear nodes to what that takes from the others, non x lin
	red  []float64 // conductances seen by the other nodes, non x non

	ends       []*lineEnd
	resistors  []resistor
	capacitors []capacitor
	inductors  []*inductor
	windings   []*winding
	memory     []memory
	fused      *fused // nil where it is solved element by element
	sources    []source
	limiters   []limiter
	newton     newton
	buses      []*bus
	traces     []*trace
	restart    bool // the next step is made of two halves
	gaps       bool // there are some
	drivesIn   bool // a line or a source ends at a node that limiters touch
	conducting int  // how many of the resistances conduct, which are the first
	unheated   int  // steps whose heat elsewhere is not accounted for yet
	gathered   [block * circuit.MaxConductors]float64
	room       []float64 // for a product
	sums
}

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
	mix, back := make([]float64, lin*n), make([]float64, non*lin)
	c.red = make([]float64, non*non)
	for i := range lin {
		copy(mix[i*n:], inv[i*lin:(i+1)*lin])
		for j := range non {
			sum := 0.0
			for k := range lin {
				sum += inv[i*lin+k] * c.g[k*n+lin+j]
			}
			mix[i*n+lin+j] = -sum
			back[j*lin+i] = sum
		}
	}
	for i := range non {
		for j := range non {
			sum := c.g[(lin+i)*n+lin+j]
			for k := range lin {
				sum -= c.g[(lin+i)*n+k] * back[j*lin+k]
			}
			c.red[i*non+j] = sum
		}
	}
	c.g, c.mix, c.back = nil, newPanel(lin, n, mix), newPanel(non, lin, back)
	slices.SortStableFunc(c.resistors, func(a, b resistor) int { return cmp.Compare(b.g, a.g) })
	c.conducting = len(c.resistors)
	if at := slices.IndexFunc(c.resistors, func(r resistor) bool { return !r.conducts() }); at >= 0 {
		c.conducting = at
	}
	c.newton.init(non)
	if !c.factor() {
		return false
	}
	c.addCapacitances()
	c.fused = newFused(c)
	return true
}
