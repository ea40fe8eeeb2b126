package transient

import (
	"fmt"
	"math"
	"math/bits"

	"clampline/analysis/circuit"
)

// wave is what travels on the conductors of a line, A: the current that it
// will drive into the end where it arrives, through the resistance there. It is
// 1/(1 + R/2Z) of v/Z + i, which left the other end.
type wave [circuit.MaxConductors]float64

// line is a travelling-wave line.
type line struct {
	m     int
	z     circuit.Matrix // of the line and the resistance of an end in series: Z + R/2
	full  circuit.Matrix // (Z + R/2) 1/Z (Z + R/2): four times the energy of a second of a wave
	a, b  lineEnd
	delay float64 // in steps
	along []place
}

// lineEnd is one end of a line. The rings hold the waves that left each end;
// the place of a step in them is its number under the mask.
type lineEnd struct {
	m           int
	node        [circuit.MaxConductors]int
	y           circuit.Matrix // conductance seen at the end, 1/(Z + R/2)
	send, turn  circuit.Matrix // from the voltage, and the wave that arrives, to the wave that leaves
	heat        circuit.Matrix // from what these two waves differ by to the heat in the resistance
	arrives     wave
	own, far    []wave
	mask        int
	next        int  // the step to come
	front       bool // its four conductors are the first nodes of the cluster, in order
	whole, half between
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
	rings := make([]wave, 2*size)
	half := x.R.Scaled(0.5).Matrix(m)
	z, inverse := x.Z.Plus(half), x.Z.Inverse(m)
	y := z.Inverse(m)
	through := y.Times(x.Z) // 1/(1 + R/2Z)
	full := z.Times(inverse).Times(z)
	l := &line{m: m, z: z, full: full, delay: delay}
	l.a = lineEnd{
		m: m, y: y, send: through.Times(y).Scaled(2), turn: circuit.Balanced{Own: 1}.Matrix(m).Plus(through.Scaled(-2)),
		heat: z.Times(inverse).Times(half).Times(inverse).Times(z).Scaled(0.25),
		own:  rings[:size], far: rings[size:], mask: size - 1, next: 1,
		whole: newBetween(delay, whole >= 2), half: newBetween(delay+0.5, whole >= 2),
	}
	if whole > size-3-block {
		l.a.whole, l.a.half = between{}, between{}
	}
	l.b = l.a
	l.b.own, l.b.far = l.a.far, l.a.own
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
	}
	e.front = e.m == circuit.MaxConductors && e.node == [circuit.MaxConductors]int{0, 1, 2, 3}
	c.ends = append(c.ends, e)
}

// before finds the wave that arrives at the end of the step.
func (e *lineEnd) before(c *cluster) { e.arrive(c, &e.whole) }

// beforeHalf does the same for the middle of the step.
func (e *lineEnd) beforeHalf(c *cluster) { e.arrive(c, &e.half) }

func (e *lineEnd) arrive(c *cluster, b *between) {
	last := e.next - b.back
	w := &b.weight
	w0, w1 := &e.far[last&e.mask], &e.far[(last-1)&e.mask]
	w2, w3 := &e.far[(last-2)&e.mask], &e.far[(last-3)&e.mask]
	a0, a1, a2, a3 := w[0], w[1], w[2], w[3]
	v0 := (a0*w0[0] + a1*w1[0]) + (a2*w2[0] + a3*w3[0])
	v1 := (a0*w0[1] + a1*w1[1]) + (a2*w2[1] + a3*w3[1])
	v2 := (a0*w0[2] + a1*w1[2]) + (a2*w2[2] + a3*w3[2])
	v3 := (a0*w0[3] + a1*w1[3]) + (a2*w2[3] + a3*w3[3])
	e.arrives = wave{v0, v1, v2, v3}
	if e.front {
		inj := (*wave)(c.inj)
		inj[0] += v0
		inj[1] += v1
		inj[2] += v2
		inj[3] += v3
		return
	}
	for k := range e.m {
		c.inj[e.node[k]] += e.arrives[k]
	}
}

// after sends the wave of the step on its way.
func (e *lineEnd) after(c *cluster) {
	out := &e.own[e.next&e.mask]
	e.next++
	if e.front {
		e.leave((*wave)(c.v), out)
		return
	}
	var v wave
	for k := range e.m {
		v[k] = c.v[e.node[k]]
	}
	e.leave(&v, out)
}

// leave finds the wave that leaves, with the sums over conductors written out.
func (e *lineEnd) leave(v, out *wave) {
	a, s, t := &e.arrives, &e.send, &e.turn
	v0, v1, v2, v3 := v[0], v[1], v[2], v[3]
	a0, a1, a2, a3 := a[0], a[1], a[2], a[3]
	out[0] = ((s[0][0]*v0 + s[0][1]*v1) + (s[0][2]*v2 + s[0][3]*v3)) + ((t[0][0]*a0 + t[0][1]*a1) + (t[0][2]*a2 + t[0][3]*a3))
	out[1] = ((s[1][0]*v0 + s[1][1]*v1) + (s[1][2]*v2 + s[1][3]*v3)) + ((t[1][0]*a0 + t[1][1]*a1) + (t[1][2]*a2 + t[1][3]*a3))
	out[2] = ((s[2][0]*v0 + s[2][1]*v1) + (s[2][2]*v2 + s[2][3]*v3)) + ((t[2][0]*a0 + t[2][1]*a1) + (t[2][2]*a2 + t[2][3]*a3))
	out[3] = ((s[3][0]*v0 + s[3][1]*v1) + (s[3][2]*v2 + s[3][3]*v3)) + ((t[3][0]*a0 + t[3][1]*a1) + (t[3][2]*a2 + t[3][3]*a3))
}

// power returns the heat in the resistance at the end after a step, W.
func (e *lineEnd) power() float64 {
	out, a := &e.own[(e.next-1)&e.mask], &e.arrives
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
	steps := int(math.Ceil(min(delay, float64(len(e.own)))))
	for back := range steps {
		sum += min(1, delay-float64(back)) * square(&e.own[(e.next-1-back)&e.mask], full)
	}
	return sum / 4 * h
}
