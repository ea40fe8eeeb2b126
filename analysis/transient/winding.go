package transient

import "clampline/analysis/circuit"

// winding is an ideal transformer with its leakage: an inductor across the
// weighted sum of four voltages, whose current flows in all four nodes with
// the same weights.
type winding struct {
	x          circuit.Winding
	node       [4]int
	weight     [4]float64
	g, echo, i float64
	past, next float64
}

func (c *cluster) addWinding(node [4]int, x circuit.Winding) {
	turn := 1 / x.Ratio
	w := winding{x: x, node: node, weight: [4]float64{turn, -turn, -1, 1}}
	w.g = 1 / (2*x.Henries/c.h + x.Ohms)
	w.echo = w.g * 4 * x.Henries / c.h
	for i, a := range node {
		for j, b := range node {
			c.put(a, b, w.g*w.weight[i]*w.weight[j])
		}
	}
	c.windings = append(c.windings, w)
}

func (w *winding) before(c *cluster) { w.drive(c, w.echo*w.i-w.past) }

func (w *winding) beforeHalf(c *cluster) { w.drive(c, w.echo*w.i/2) }

func (w *winding) drive(c *cluster, past float64) {
	w.next = past
	for k, node := range w.node {
		c.inj[node] -= w.weight[k] * past
	}
}

func (w *winding) after(c *cluster) {
	v := 0.0
	for k, node := range w.node {
		v += w.weight[k] * c.v[node]
	}
	w.past = w.next
	w.i = w.g*v + w.past
}

func (w *winding) power() float64 { return w.x.Ohms * w.i * w.i }

func (w *winding) stored() float64 { return 0.5 * w.x.Henries * w.i * w.i }
