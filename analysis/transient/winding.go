package transient

import "clampline/analysis/circuit"

// winding is an ideal transformer with its leakage: an inductor across the
// weighted sum of four voltages, whose current flows in all four nodes with
// the same weights.
type winding struct {
	x           circuit.Winding
	node        [4]int
	weight      [4]float64
	g, echo, i  float64
	coming, now [1]float64 // A, that it drives out of the first of them
}

func (c *cluster) addWinding(node [4]int, x circuit.Winding) {
	turn := 1 / x.Ratio
	w := &winding{x: x, node: node, weight: [4]float64{turn, -turn, -1, 1}}
	w.g = 1 / (2*x.Henries/c.h + x.Ohms)
	w.echo = w.g * 4 * x.Henries / c.h
	for i, a := range node {
		for j, b := range node {
			c.put(a, b, w.g*w.weight[i]*w.weight[j])
		}
	}
	c.windings, c.memory = append(c.windings, w), append(c.memory, w)
}

func (w *winding) state() (coming, now []float64) { return w.coming[:], w.now[:] }

func (w *winding) half([]float64) { w.now[0] = w.echo * w.i / 2 }

func (w *winding) drive(inj []float64) {
	for k, node := range w.node {
		inj[node] -= w.weight[k] * w.now[0]
	}
}

func (w *winding) after(volts []float64) {
	v := 0.0
	for k, node := range w.node {
		v += w.weight[k] * volts[node]
	}
	w.i = w.g*v + w.now[0]
	w.coming[0] = w.echo*w.i - w.now[0]
}

func (w *winding) reset() { w.i, w.coming[0] = 0, 0 }

func (w *winding) power() float64 { return w.x.Ohms * w.i * w.i }

func (w *winding) stored() float64 { return 0.5 * w.x.Henries * w.i * w.i }
