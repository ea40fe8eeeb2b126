package transient

import "clampline/analysis/circuit"

// Most of the time of a run goes into a few sums over four numbers at once, as
// bundles have up to four conductors. Each has a form in plain Go, which says what
// it is, and one in assembly for processors that take four numbers in one
// instruction (kernel_amd64.s). Both round alike, so that a run gives the same bits
// by either (TestKernels).

// wave is what travels on the conductors of a line, A: the current that it
// will drive into the end where it arrives, through the resistance there. It is
// 1/(1 + R/2Z) of v/Z + i, which left the other end.
type wave = [circuit.MaxConductors]float64

// square4 is a matrix over four conductors, column by column.
type square4 [circuit.MaxConductors]wave

func columnsOf(m *circuit.Matrix) (out square4) {
	for i, row := range m {
		for j, value := range row {
			out[j][i] = value
		}
	}
	return out
}

// times returns the product with a vector.
func (m *square4) times(x *wave) (out wave) {
	for i := range out {
		out[i] = (float64(m[0][i]*x[0]) + float64(m[1][i]*x[1])) + (float64(m[2][i]*x[2]) + float64(m[3][i]*x[3]))
	}
	return out
}

// A ring holds the waves that left an end of a line; the place of a step in it is its
// number under the mask.
type ring struct {
	waves []wave
	mask  int
}

func (r *ring) at(step int) *wave { return &r.waves[step&r.mask] }

// arriveGo finds the waves of n steps from the four that left the far end round each,
// the youngest of the first in step last, and adds them to rows of what is driven in.
func arriveGo(out, rows []float64, width int, from *ring, last, n int, weight *wave) {
	for i := range n {
		w0, w1, w2, w3 := from.at(last+i), from.at(last+i-1), from.at(last+i-2), from.at(last+i-3)
		to, row := (*wave)(out[4*i:]), (*wave)(rows[i*width:])
		for k := range to {
			to[k] = (float64(weight[0]*w0[k]) + float64(weight[1]*w1[k])) + (float64(weight[2]*w2[k]) + float64(weight[3]*w3[k]))
			row[k] += to[k]
		}
	}
}

// leaveGo finds the waves that leave in n steps, from the voltages and from the waves
// that arrive.
func leaveGo(to *ring, next, n int, volts []float64, width int, arrives []float64, send, turn *square4) {
	for i := range n {
		a, b := send.times((*wave)(volts[i*width:])), turn.times((*wave)(arrives[4*i:]))
		out := to.at(next + i)
		for k := range out {
			out[k] = a[k] + b[k]
		}
	}
}

// extremes are the greatest magnitudes of the voltages of four conductors and of what
// they differ by from the next and from the one after it, in turn, and the steps of
// these.
type extremes struct {
	volts, steps [3]wave
}

// raiseGo raises them to n rows of voltages, with the mains added, of the steps from
// first on.
func (e *extremes) raiseGo(volts []float64, width, n int, mains *wave, first int) {
	for i := range n {
		var v wave
		for k, size := range volts[i*width:][:4] {
			v[k] = size + mains[k]
		}
		e.raise(&[3]wave{v,
			{v[0] - v[1], v[1] - v[2], v[2] - v[3], v[3] - v[0]},
			{v[0] - v[2], v[1] - v[3], v[2] - v[0], v[3] - v[1]},
		}, float64(first+i))
	}
}

func (e *extremes) raise(volts *[3]wave, step float64) {
	for i := range volts {
		for k, size := range volts[i] {
			if size = max(size, -size); size > e.volts[i][k] {
				e.volts[i][k], e.steps[i][k] = size, step
			}
		}
	}
}

// stepsGo solves n fused steps of four linear nodes and no others that remember four
// numbers: rows of what is driven in to rows of voltages. The sum has a row of panels
// for the voltages and one for what is remembered next.
func stepsGo(sum []float64, volts, drive []float64, width, n int, in, out *wave) {
	for i := range n {
		*in = *out
		d := (*wave)(drive[i*width:])
		for part, to := range []*wave{(*wave)(volts[i*width:]), out} {
			m := sum[32*part:][:32]
			for k := range to {
				even := float64(m[k]*d[0]) + float64(m[8+k]*d[2]) + float64(m[16+k]*in[0]) + float64(m[24+k]*in[2])
				odd := float64(m[4+k]*d[1]) + float64(m[12+k]*d[3]) + float64(m[20+k]*in[1]) + float64(m[28+k]*in[3])
				to[k] = even + odd
			}
		}
	}
}

// panel is a matrix of any size, column by column in groups of four rows; what the
// last group lacks is zero.
type panel struct {
	rows    int // a whole number of fours
	columns int
	values  []float64
}

// noPanel is one of zeros.
func noPanel(rows, columns int) panel {
	return panel{fours(rows), columns, make([]float64, fours(rows)*columns)}
}

// newPanel takes a matrix that is kept row by row.
func newPanel(rows, columns int, values []float64) panel {
	p := noPanel(rows, columns)
	for i := range rows {
		for j := range columns {
			p.values[(i/4*columns+j)*4+i%4] = values[i*columns+j]
		}
	}
	return p
}

// set replaces a column.
func (p *panel) set(j int, values []float64) {
	for i, value := range values[:p.rows] {
		p.values[(i/4*p.columns+j)*4+i%4] = value
	}
}

// rowsOf returns a matrix over conductors row by row.
func rowsOf(m circuit.Matrix) (out []float64) {
	for _, row := range m {
		out = append(out, row[:]...)
	}
	return out
}

// fours rounds up to a whole number of fours.
func fours(n int) int { return (n + 3) &^ 3 }

// timesGo writes the product with a vector to whole groups of out.
func (p *panel) timesGo(out, x []float64) {
	for at := 0; at < p.rows; at += 4 {
		var even, odd wave
		for j, by := range x[:p.columns] {
			column, sum := (*wave)(p.values[at*p.columns+4*j:]), &even
			if j%2 == 1 {
				sum = &odd
			}
			for i := range sum {
				sum[i] += float64(column[i] * by)
			}
		}
		to := (*wave)(out[at:])
		for i := range to {
			to[i] = even[i] + odd[i]
		}
	}
}
