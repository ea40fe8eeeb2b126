package transient

import (
	"slices"

	"clampline/analysis/circuit"
)

// capacitor is one of a cluster, which solves for all of them at once.
type capacitor struct {
	a, b    int
	farads  float64
	charged float64 // V at the start
}

func (c *cluster) addCapacitor(a, b int, x circuit.Capacitor) {
	c.capacitors = append(c.capacitors, capacitor{a: a, b: b, farads: x.Farads, charged: x.Charged})
	c.add(a, b, 2*x.Farads/c.h)
}

// stored returns the energy of a capacitor, J.
func (x *capacitor) stored(c *cluster) float64 {
	v := c.v[x.a] - c.v[x.b]
	return 0.5 * x.farads * v * v
}

// capacitance is that of capacitors of a cluster that hang together: i = g v - j,
// with v the voltages of its nodes to the last of them, so that what is driven in
// there is exactly what is taken from the others, and what all have in common does
// not drown what they differ by.
type capacitance struct {
	node        []int // the last is earth where one of them leads there
	g           panel
	v           []float64 // V
	coming, now []float64 // A, that it drives in
	charge      []float64 // A: g times the voltages to which capacitors are charged at the start
	begun       bool
}

// newCapacitance sums up capacitors over nodes in rising order.
func newCapacitance(capacitors []capacitor, node []int, h float64) *capacitance {
	n := len(node) - 1
	room := fours(n)
	g, s := make([]float64, n*n), &capacitance{node: node, v: make([]float64, room), coming: make([]float64, room), now: make([]float64, room), charge: make([]float64, room)}
	for _, x := range capacitors {
		a, b, size := slices.Index(node, x.a), slices.Index(node, x.b), 2*x.farads/h
		if a < 0 || b < 0 {
			continue // of others
		}
		for _, side := range []struct {
			at, other int
			charged   float64
		}{{a, b, x.charged}, {b, a, -x.charged}} {
			if side.at == n {
				continue
			}
			g[side.at*n+side.at] += size
			if side.other < n {
				g[side.at*n+side.other] -= size
			}
			s.charge[side.at] += size * side.charged
		}
	}
	s.g = newPanel(n, n, g)
	s.reset()
	return s
}

func (s *capacitance) state() (coming, now []float64) {
	return s.coming[:len(s.node)-1], s.now[:len(s.node)-1]
}

func (s *capacitance) half(volts []float64) {
	if s.begun {
		s.times(s.now, volts)
	} else {
		copy(s.now, s.charge)
	}
}

func (s *capacitance) drive(inj []float64) {
	last, sum := len(s.node)-1, 0.0
	for i, node := range s.node[:last] {
		inj[node] += s.now[i]
		sum += s.now[i]
	}
	inj[s.node[last]] -= sum
}

func (s *capacitance) after(volts []float64) {
	s.begun = true
	s.times(s.coming, volts)
	for i, now := range s.now {
		s.coming[i] = 2*s.coming[i] - now
	}
}

func (s *capacitance) reset() {
	s.begun = false
	for i, charge := range s.charge {
		s.coming[i] = 2 * charge
	}
}

// times writes the charge at voltages of the cluster, by half a step, to out.
func (s *capacitance) times(out, volts []float64) {
	last := len(s.node) - 1
	to := volts[s.node[last]]
	for i, node := range s.node[:last] {
		s.v[i] = volts[node] - to
	}
	s.g.times(out, s.v)
}

// addCapacitances sums up the capacitors that hang together.
func (c *cluster) addCapacitances() {
	of := make([]int, c.n+1) // a node that each hangs together with
	for i := range of {
		of[i] = i
	}
	for _, x := range c.capacitors {
		for i, from, to := 0, of[x.a], of[x.b]; i < len(of); i++ {
			if of[i] == from {
				of[i] = to
			}
		}
	}
	for first := range of {
		var node []int
		for i, other := range of {
			if other == of[first] {
				node = append(node, i)
			}
		}
		if len(node) > 1 && node[0] == first {
			c.memory = append(c.memory, newCapacitance(c.capacitors, node, c.h))
		}
	}
}
