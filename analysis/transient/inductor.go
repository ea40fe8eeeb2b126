package transient

import "clampline/analysis/circuit"

// inductor is a set of coupled inductances with resistances: i = gamma v + what it drives out.
type inductor struct {
	x           circuit.Inductor
	ends        [][2]int
	gamma       panel     // S, (2L/h + R)^-1
	echo        panel     // gamma times 4L/h
	v, i        []float64 // V, A
	coming, now []float64 // A, that it drives out
}

func (c *cluster) addInductor(ends [][2]int, x circuit.Inductor) {
	n, room := len(ends), fours(len(ends))
	gamma, echo := make([]float64, n*n), make([]float64, n*n)
	for i := range n {
		for j := range n {
			gamma[i*n+j] = 2 * x.Mutual(i, j) / c.h
		}
		gamma[i*n+i] += x.Ohms[i]
	}
	if !invert(gamma, n) {
		// Branches that are coupled too closely to be told apart: a matrix
		// without meaning, which leaves a node without a conductance.
		clear(gamma)
	}
	for i := range n {
		for j := range n {
			for l := range n {
				echo[i*n+j] += gamma[i*n+l] * 4 * x.Mutual(l, j) / c.h
			}
		}
	}
	for i, a := range ends {
		for j, b := range ends {
			g := gamma[i*n+j]
			c.put(a[0], b[0], g)
			c.put(a[1], b[1], g)
			c.put(a[0], b[1], -g)
			c.put(a[1], b[0], -g)
		}
	}
	k := &inductor{
		x: x, ends: ends, gamma: newPanel(n, n, gamma), echo: newPanel(n, n, echo),
		v: make([]float64, room), i: make([]float64, room), coming: make([]float64, room), now: make([]float64, room),
	}
	c.inductors, c.memory = append(c.inductors, k), append(c.memory, k)
}

func (k *inductor) state() (coming, now []float64) {
	return k.coming[:len(k.ends)], k.now[:len(k.ends)]
}

func (k *inductor) half([]float64) {
	k.echo.times(k.now, k.i)
	for row := range k.now {
		k.now[row] /= 2
	}
}

func (k *inductor) drive(inj []float64) {
	for row, end := range k.ends {
		inj[end[0]] -= k.now[row]
		inj[end[1]] += k.now[row]
	}
}

func (k *inductor) after(volts []float64) {
	for row, end := range k.ends {
		k.v[row] = volts[end[0]] - volts[end[1]]
	}
	k.gamma.times(k.i, k.v)
	for row, now := range k.now {
		k.i[row] += now
	}
	k.echo.times(k.coming, k.i)
	for row, now := range k.now {
		k.coming[row] -= now
	}
}

func (k *inductor) reset() {
	clear(k.i)
	clear(k.coming)
}

func (k *inductor) power() float64 {
	sum := 0.0
	for row, ohms := range k.x.Ohms {
		sum += ohms * k.i[row] * k.i[row]
	}
	return sum
}

func (k *inductor) stored() float64 {
	sum := 0.0
	for i := range k.ends {
		for j := range k.ends {
			sum += 0.5 * k.x.Mutual(i, j) * k.i[i] * k.i[j]
		}
	}
	return sum
}
