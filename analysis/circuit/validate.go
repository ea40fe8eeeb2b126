package circuit

import (
	"fmt"
	"math"
	"slices"

	"clampline/analysis/waveform"
)

// Validate returns what is wrong with the network, naming the element, or nil.
func (n *Network) Validate() error {
	v := validator{nodes: len(n.Names)}
	for _, b := range n.Buses {
		v.conductors("bus "+b.Name, len(b.Conductors))
		for _, c := range b.Conductors {
			v.inside("bus "+b.Name, c.Node)
			v.want(c.Node != Earth, "bus "+b.Name, "a conductor is earth itself")
		}
		v.want(b.Mains == nil || len(b.Mains) == len(b.Conductors), "bus "+b.Name, "the mains is not that of as many conductors")
		for _, volts := range b.Mains {
			v.finite("bus "+b.Name, "voltage of the mains", volts)
		}
	}
	for _, l := range n.Lines {
		v.line(l)
	}
	for _, r := range n.Resistors {
		v.inside(r.Name, r.A, r.B)
		v.above(r.Name, "resistance", r.Ohms)
	}
	for _, c := range n.Capacitors {
		v.inside(c.Name, c.A, c.B)
		v.above(c.Name, "capacitance", c.Farads)
		v.finite(c.Name, "voltage at the start", c.Charged)
	}
	for _, c := range n.Inductors {
		v.inductor(c)
	}
	for _, w := range n.Windings {
		v.inside(w.Name, w.P.A, w.P.B, w.S.A, w.S.B)
		v.above(w.Name, "ratio", w.Ratio)
		v.above(w.Name, "leakage inductance", w.Henries)
		v.notBelow(w.Name, "resistance", w.Ohms)
	}
	for _, s := range n.Sources {
		v.inside(s.Name, s.A, s.B)
		v.above(s.Name, "resistance", s.Ohms)
		v.finite(s.Name, "voltage", s.Volts)
		v.shape(s.Name, s.Shape)
	}
	for _, x := range n.Varistors {
		v.inside(x.Name, x.A, x.B)
		v.curve(x.Name, x.Curve)
	}
	for _, g := range n.Gaps {
		v.gap(g)
	}
	for _, d := range n.Diodes {
		v.inside(d.Name, d.A, d.B)
		v.above(d.Name, "resistance forth", d.On)
		v.above(d.Name, "resistance back", d.Off)
		v.want(d.Off > d.On, d.Name, "its resistance back is not above that forth")
	}
	return v.err
}

// validator keeps the first thing that is wrong.
type validator struct {
	nodes int
	err   error
}

func (v *validator) want(ok bool, name, format string, args ...any) {
	if !ok && v.err == nil {
		v.err = fmt.Errorf("%s: %s", name, fmt.Sprintf(format, args...))
	}
}

func (v *validator) inside(name string, nodes ...Node) {
	for _, node := range nodes {
		v.want(node >= 0 && int(node) < v.nodes || node == Earth, name, "there is no node %d", node)
	}
}

func (v *validator) conductors(name string, n int) {
	v.want(n >= 1 && n <= MaxConductors, name, "%d conductors; there must be 1 to %d", n, MaxConductors)
}

func (v *validator) above(name, what string, value float64) {
	v.want(value > 0 && !math.IsInf(value, 0), name, "the %s is %g; it must be a number above zero", what, value)
}

func (v *validator) notBelow(name, what string, value float64) {
	v.want(value >= 0 && !math.IsInf(value, 0), name, "the %s is %g; it must be a number not below zero", what, value)
}

func (v *validator) finite(name, what string, value float64) {
	v.want(!math.IsNaN(value) && !math.IsInf(value, 0), name, "the %s is %g; it must be a number", what, value)
}

func (v *validator) shape(name string, s waveform.Shape) {
	for _, figure := range []float64{s.Scale, s.Rise, s.Fall, s.Frequency} {
		v.finite(name, "shape of its wave", figure)
	}
}

func (v *validator) line(l Line) {
	v.conductors(l.Name, len(l.A))
	v.want(len(l.A) == len(l.B), l.Name, "its ends differ in the number of conductors")
	if v.err != nil {
		return
	}
	for _, end := range [][]Node{l.A, l.B} {
		v.inside(l.Name, end...)
		v.want(!slices.Contains(end, Earth), l.Name, "a conductor ends in earth itself; end it in a node with a resistance to earth")
	}
	v.surgeImpedance(l)
	v.notBelow(l.Name, "resistance", l.R.Own)
	v.notBelow(l.Name, "shared resistance", l.R.Mutual)
	v.above(l.Name, "delay", l.Delay)
}

func (v *validator) surgeImpedance(l Line) {
	var places []float64
	for i := range l.A {
		v.above(l.Name, "surge impedance", l.Z[i][i])
		for j := range l.A {
			v.want(l.Z[i][j] == l.Z[j][i], l.Name, "its surge impedances are not symmetric")
			places = append(places, l.Z[i][j])
		}
	}
	v.want(positive(places, len(l.A)), l.Name, "its surge impedances cannot exist together; some currents would give energy back for ever")
}

func (v *validator) inductor(c Inductor) {
	n := len(c.Branches)
	v.want(n > 0 && len(c.Henries) == n*n && len(c.Ohms) == n, c.Name, "its matrix does not fit its branches")
	if v.err != nil {
		return
	}
	for i, b := range c.Branches {
		v.inside(c.Name, b.A, b.B)
		v.above(c.Name, "inductance", c.Mutual(i, i))
		v.notBelow(c.Name, "resistance", c.Ohms[i])
		for j := range i {
			v.want(c.Mutual(i, j) == c.Mutual(j, i), c.Name, "its inductances are not symmetric")
			coupling := c.Mutual(i, j) / math.Sqrt(c.Mutual(i, i)*c.Mutual(j, j))
			v.want(math.Abs(coupling) < 1, c.Name, "two branches are coupled by %g; it must be below 1", coupling)
		}
	}
	v.want(positive(slices.Clone(c.Henries), n), c.Name, "its inductances cannot exist together; some currents would give energy back for ever")
}

// positive reports whether a symmetric n x n matrix is positive definite. It
// alters the matrix.
func positive(a []float64, n int) bool {
	for p := range n {
		if !(a[p*n+p] > 0) {
			return false
		}
		for i := p + 1; i < n; i++ {
			factor := a[i*n+p] / a[p*n+p]
			for j := p + 1; j < n; j++ {
				a[i*n+j] -= factor * a[p*n+j]
			}
		}
	}
	return true
}

func (v *validator) curve(name string, c *Curve) {
	v.want(c != nil && len(c.Volts) >= 2 && len(c.Amps) == len(c.Volts), name, "its curve has too few points")
	if v.err != nil {
		return
	}
	v.want(c.Volts[0] == 0 && c.Amps[0] == 0, name, "its curve does not begin at the origin")
	for i := 1; i < len(c.Volts); i++ {
		if !(c.Volts[i] > c.Volts[i-1] && c.Amps[i] > c.Amps[i-1]) {
			v.want(false, name, "its curve does not rise at %g V", c.Volts[i])
		}
	}
	last := len(c.Volts) - 1
	v.finite(name, "end of its curve", c.Volts[last]+c.Amps[last])
}

func (v *validator) gap(g Gap) {
	v.inside(g.Name, g.A, g.B)
	v.above(g.Name, "arc voltage", g.Arc)
	v.above(g.Name, "resistance of the arc", g.Ohms)
	v.notBelow(g.Name, "holding current", g.Hold)
	v.above(g.Name, "resistance while open", g.Off)
	v.want(g.Sparkover > g.Arc && !math.IsInf(g.Sparkover, 0), g.Name, "its sparkover voltage is not above its arc voltage")
}
