package transient

import (
	"fmt"
	"math"
	"math/bits"

	"clampline/analysis/circuit"
)

// line is a travelling-wave line.
type line struct {
	m     int
	meets panel          // half of the impedance of the line and the resistance of an end in series, Z + R/2
	full  circuit.Matrix // (Z + R/2) 1/Z (Z + R/2): four times the energy of a second of a wave
	a, b  lineEnd
	delay float64 // in steps
	along []place
}

// lineEnd is one end of a line, with the waves that left it and the far end.
type lineEnd struct {
	m           int
	node        [circuit.MaxConductors]int
	y           circuit.Matrix // conductance seen at the end, 1/(Z + R/2)
	send, turn  square4        // from the voltage, and the wave that arrives, to the wave that leaves
	heat        circuit.Matrix // from what these two waves differ by to the heat in the resistance
	own, far    *ring
	next        int  // the step to come
	front       bool // its conductors are the first nodes of the cluster, in order
	whole, half between
	arrives     [block * circuit.MaxConductors]float64 // the waves of the steps of a block
	last        wave                                   // of them
}

// between finds a wave that left between two steps from the four round it.
type between struct {
	back   int        // steps to the youngest of the four
	weight [4]float64 // from the youngest
}

// newBetween looks delay steps back. Lagrange's polynomial through four points
// keeps the height of a wave far better than a straight line (a tenth of a
// per cent is lost where that loses five, at ten steps for a period), and
// between the middle two it never adds to it. It needs a point that is younger
// than the delay; where there is none, for a line of less than two steps, it
// goes through the three others, which does not add either.
func newBetween(delay float64, young bool) between {
	whole := math.Floor(delay + 1e-9)
	f := max(0, delay-whole)
	out := between{back: int(whole) - 1, weight: [4]float64{0, (f - 1) * (f - 2) / 2, -f * (f - 2), f * (f - 1) / 2}}
	if young {
		out.weight = [4]float64{
			-f * (f - 1) * (f - 2) / 6, (f + 1) * (f - 1) * (f - 2) / 2,
			-(f + 1) * f * (f - 2) / 2, (f + 1) * f * (f - 1) / 6,
		}
	}
	return out
}

// ringSize returns how many steps the ring of an end holds. What takes longer than
// the whole run is never seen to arrive: the places that are looked at then still
// hold nothing.
func ringSize(x circuit.Line, o Options) int {
	return 1 << bits.Len(uint(min(wholeSteps(x.Delay, o.Step), wholeSteps(o.Duration, o.Step)+1)+3+block))
}

// maxWaves bounds the memory of the waves under way on all lines, in steps of
// both ends: 256 MB. A building of 10 000 parts has a hundredth of it.
const maxWaves = 8 << 20

// checkWaves refuses lines on which too many waves are under way, naming the
// longest.
func (o Options) checkWaves(lines []circuit.Line) error {
	total, longest := 0, 0
	for i, l := range lines {
		total += 2 * ringSize(l, o)
		if l.Delay > lines[longest].Delay {
			longest = i
		}
	}
	if total <= maxWaves {
		return nil
	}
	l := lines[longest]
	return fmt.Errorf("line %s: a wave is under way on it for %.3g µs, in steps of %.3g ns too long to be followed; shorten it", l.Name, l.Delay*1e6, o.Step*1e9)
}

// newLine makes a line whose ends may be up to a block of steps apart.
func newLine(x circuit.Line, o Options) *line {
	m, delay := len(x.A), x.Delay/o.Step
	whole, size := wholeSteps(x.Delay, o.Step), ringSize(x, o)
	waves := make([]wave, 2*size)
	a, b := &ring{waves[:size:size], size - 1}, &ring{waves[size:], size - 1}
	half := x.R.Scaled(0.5).Matrix(m)
	z, inverse := x.Z.Plus(half), x.Z.Inverse(m)
	y := z.Inverse(m)
	through := y.Times(x.Z) // 1/(1 + R/2Z)
	full := z.Times(inverse).Times(z)
	l := &line{m: m, meets: newPanel(len(z), len(z), rowsOf(z.Scaled(0.5))), full: full, delay: delay}
	send, turn := through.Times(y).Scaled(2), circuit.Balanced{Own: 1}.Matrix(m).Plus(through.Scaled(-2))
	l.a = lineEnd{
		m: m, y: y, send: columnsOf(&send), turn: columnsOf(&turn),
		heat: z.Times(inverse).Times(half).Times(inverse).Times(z).Scaled(0.25),
		own:  a, far: b, next: 1,
		whole: newBetween(delay, whole >= 2), half: newBetween(delay+0.5, whole >= 2),
	}
	if whole > size-3-block {
		l.a.whole, l.a.half = between{}, between{}
	}
	l.b = l.a
	l.b.own, l.b.far = b, a
	l.place(o.Samples)
	return l
}

func (l *line) end(side int) *lineEnd {
	if side == 0 {
		return &l.a
	}
	return &l.b
}

// addEnd hangs one end of a line on the cluster.
func (c *cluster) addEnd(e *lineEnd) {
	for i := range e.m {
		for j := range e.m {
			c.put(e.node[i], e.node[j], e.y[i][j])
		}
		c.drivesIn = c.drivesIn || e.node[i] >= c.lin
	}
	e.front = e.m == circuit.MaxConductors && e.node == [circuit.MaxConductors]int{0, 1, 2, 3}
	c.ends = append(c.ends, e)
}

// arrive finds the waves that arrive in the next n steps and drives them in.
func (e *lineEnd) arrive(c *cluster, n int) {
	if e.front {
		arrive(e.arrives[:], c.drive[c.width:], c.width, e.far, e.next-e.whole.back, n, &e.whole.weight)
	} else {
		var rows [block * circuit.MaxConductors]float64
		arrive(e.arrives[:], rows[:], circuit.MaxConductors, e.far, e.next-e.whole.back, n, &e.whole.weight)
		for i := range n {
			e.put(c.drive[(i+1)*c.width:], (*wave)(rows[4*i:]))
		}
	}
}

// put adds a wave to what is driven in.
func (e *lineEnd) put(drive []float64, w *wave) {
	for k := range e.m {
		drive[e.node[k]] += w[k]
	}
}

// again drives the wave of step i of the block in once more, or that of half a step
// before.
func (e *lineEnd) again(c *cluster, i int, half bool) {
	if !half {
		e.put(c.inj, (*wave)(e.arrives[4*(i-1):]))
		return
	}
	var out, row wave
	arrive(out[:], row[:], circuit.MaxConductors, e.far, e.next+i-1-e.half.back, 1, &e.half.weight)
	e.put(c.inj, &out)
}

// leave sends the waves of n steps on their way.
func (e *lineEnd) leave(c *cluster, n int) {
	volts, width := c.volts[c.width:], c.width
	if !e.front {
		volts, width = c.gather(&e.node, e.m, n), circuit.MaxConductors
	}
	leave(e.own, e.next, n, volts, width, e.arrives[:], &e.send, &e.turn)
	e.last = *(*wave)(e.arrives[4*(n-1):])
	e.next += n
}

// power returns the heat in the resistance at the end after a step, W.
func (e *lineEnd) power() float64 {
	out, a := e.own.at(e.next-1), &e.last
	return square(&wave{out[0] - a[0], out[1] - a[1], out[2] - a[2], out[3] - a[3]}, &e.heat)
}

// square returns wᵀ m w of a symmetric matrix.
func square(w *wave, m *circuit.Matrix) float64 {
	a, b, c, d := w[0], w[1], w[2], w[3]
	return a*(m[0][0]*a+2*(m[0][1]*b+m[0][2]*c+m[0][3]*d)) + b*(m[1][1]*b+2*(m[1][2]*c+m[1][3]*d)) + c*(m[2][2]*c+2*m[2][3]*d) + d*m[3][3]*d
}

// stored returns the energy of the waves on their way from one end, J: each
// carries a quarter of wᵀ full w.
func (e *lineEnd) stored(full *circuit.Matrix, delay, h float64) float64 {
	sum := 0.0
	steps := int(math.Ceil(min(delay, float64(len(e.own.waves)))))
	for back := range steps {
		sum += min(1, delay-float64(back)) * square(e.own.at(e.next-1-back), full)
	}
	return sum / 4 * h
}
