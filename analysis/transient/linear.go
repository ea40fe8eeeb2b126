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

// capacitor has the current i = g v - j.
type capacitor struct {
	a, b     int
	farads   float64
	charged  float64 // V at the start
	g, v     float64
	j, nextJ float64
}

func (c *cluster) addCapacitor(a, b int, x circuit.Capacitor) {
	g := 2 * x.Farads / c.h
	c.capacitors = append(c.capacitors, capacitor{a: a, b: b, farads: x.Farads, charged: x.Charged, g: g, v: x.Charged})
	c.add(a, b, g)
}

func (x *capacitor) before(c *cluster) { x.drive(c, 2*x.g*x.v-x.j) }

func (x *capacitor) beforeHalf(c *cluster) { x.drive(c, x.g*x.v) }

func (x *capacitor) drive(c *cluster, j float64) {
	x.nextJ = j
	c.inj[x.a] += j
	c.inj[x.b] -= j
}

func (x *capacitor) after(c *cluster) { x.v, x.j = c.v[x.a]-c.v[x.b], x.nextJ }

func (x *capacitor) stored() float64 { return 0.5 * x.farads * x.v * x.v }

// source is an electromotive force behind a conductance.
type source struct {
	a, b  int
	g     float64
	x     circuit.Source
	emf   []float64 // V, by step, as far as extend has come
	force float64   // V, now
}

func (c *cluster) addSource(a, b int, x circuit.Source) {
	c.sources = append(c.sources, source{a: a, b: b, g: 1 / x.Ohms, x: x})
	c.add(a, b, 1/x.Ohms)
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
	s.force = emf
	c.inj[s.a] += emf * s.g
	c.inj[s.b] -= emf * s.g
}

// power returns what the source delivers and what its own resistance turns to
// heat, W.
func (s *source) power(c *cluster) (driven, own float64) {
	over := s.force - (c.v[s.a] - c.v[s.b])
	return s.force * over * s.g, over * over * s.g
}
