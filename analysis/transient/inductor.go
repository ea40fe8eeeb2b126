package transient

import "clampline/analysis/circuit"

// inductor is a set of coupled inductances with resistances: i = gamma v + past.
type inductor struct {
	x          circuit.Inductor
	ends       [][2]int
	gamma      []float64 // S, (2L/h + R)^-1
	echo       []float64 // gamma times 4L/h
	v, i       []float64 // V, A
	past, next []float64 // A
}

func (c *cluster) addInductor(ends [][2]int, x circuit.Inductor) {
	n := len(ends)
	k := inductor{x: x, ends: ends, gamma: make([]float64, n*n), echo: make([]float64, n*n), v: make([]float64, n), i: make([]float64, n), past: make([]float64, n), next: make([]float64, n)}
	for i := range n {
		for j := range n {
			k.gamma[i*n+j] = 2 * x.Mutual(i, j) / c.h
		}
		k.gamma[i*n+i] += x.Ohms[i]
	}
	if !invert(k.gamma, n) {
		// Branches that are coupled too closely to be told apart: a matrix
		// without meaning, which leaves a node without a conductance.
		clear(k.gamma)
	}
	for i := range n {
		for j := range n {
			for l := range n {
				k.echo[i*n+j] += k.gamma[i*n+l] * 4 * x.Mutual(l, j) / c.h
			}
		}
	}
	for i, a := range ends {
		for j, b := range ends {
			g := k.gamma[i*n+j]
			c.put(a[0], b[0], g)
			c.put(a[1], b[1], g)
			c.put(a[0], b[1], -g)
			c.put(a[1], b[0], -g)
		}
	}
	c.inductors = append(c.inductors, k)
}

func (k *inductor) before(c *cluster) {
	multiply(k.next, k.echo, k.i)
	for row, past := range k.past {
		k.next[row] -= past
	}
	k.drive(c)
}

func (k *inductor) beforeHalf(c *cluster) {
	multiply(k.next, k.echo, k.i)
	for row := range k.next {
		k.next[row] /= 2
	}
	k.drive(c)
}

func (k *inductor) drive(c *cluster) {
	for row, next := range k.next {
		c.inj[k.ends[row][0]] -= next
		c.inj[k.ends[row][1]] += next
	}
}

func (k *inductor) after(c *cluster) {
	for row, end := range k.ends {
		k.v[row] = c.v[end[0]] - c.v[end[1]]
	}
	multiply(k.i, k.gamma, k.v)
	for row, next := range k.next {
		k.i[row] += next
		k.past[row] = next
	}
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
	for i := range k.i {
		for j := range k.i {
			sum += 0.5 * k.x.Mutual(i, j) * k.i[i] * k.i[j]
		}
	}
	return sum
}
