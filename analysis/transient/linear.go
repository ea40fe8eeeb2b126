package transient

import (
	"slices"

	"clampline/analysis/circuit"
)

// resistor is a conductance between two nodes.
type resistor struct {
	a, b int
	g    float64
}

func (c *cluster) addResistor(a, b int, ohms float64) {
	c.add(a, b, 1/ohms)
	c.resistors = append(c.resistors, resistor{a, b, 1 / ohms})
}

// conducts tells a resistance from an insulation: a megohm turns a tenth of a
// joule to heat in a millisecond at 10 kV.
func (r resistor) conducts() bool { return r.g > 1e-6 }

func (r *resistor) power(c *cluster) float64 {
	v := c.v[r.a] - c.v[r.b]
	return r.g * v * v
}

// source is an electromotive force behind a conductance.
type source struct {
	a, b int
	g    float64
	x    circuit.Source
	emf  []float64 // V, by step, as far as extend has come
}

func (c *cluster) addSource(a, b int, x circuit.Source) {
	c.sources = append(c.sources, source{a: a, b: b, g: 1 / x.Ohms, x: x})
	c.add(a, b, 1/x.Ohms)
	c.drivesIn = c.drivesIn || a >= c.lin && a < c.n || b >= c.lin && b < c.n
}

// extend finds what the source drives up to a step of h seconds.
func (s *source) extend(last int, h float64) {
	s.emf = slices.Grow(s.emf, last+1-len(s.emf))
	for k := len(s.emf); k <= last; k++ {
		s.emf = append(s.emf, s.x.Volts*s.x.Shape.At(float64(k)*h))
	}
}

func (s *source) before(c *cluster, k int) { s.drive(c, s.emf[k]) }

func (s *source) beforeHalf(c *cluster, time float64) { s.drive(c, s.x.Volts*s.x.Shape.At(time)) }

func (s *source) drive(c *cluster, emf float64) {
	c.inj[s.a] += emf * s.g
	c.inj[s.b] -= emf * s.g
}

// power returns what the source delivers after step k and what its own resistance
// turns to heat, W.
func (s *source) power(c *cluster, k int) (driven, own float64) {
	over := s.emf[k] - (c.v[s.a] - c.v[s.b])
	return s.emf[k] * over * s.g, over * over * s.g
}
