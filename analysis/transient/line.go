package transient

import (
	"fmt"
	"math"
	"math/bits"

	"clampline/analysis/circuit"
)

// wave is what travels on the conductors of a line, in A.
type wave [circuit.MaxConductors]float64

// line is a travelling-wave line.
type line struct {
	m     int
	z     circuit.Balanced
	a, b  lineEnd
	delay float64 // in steps
	along []place
}

// lineEnd is one end of a line. The rings hold the waves that left each end;
// the place of a step in them is its number under the mask.
type lineEnd struct {
	m           int
	node        [circuit.MaxConductors]int
	y           circuit.Balanced // conductance seen at the end
	turn        circuit.Balanced // from the wave that arrives to the current that it drives
	r           circuit.Balanced // resistance at this end
	arrives     wave
	driven      wave
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
	half := x.R.Scaled(0.5)
	y := x.Z.Inverse(m)
	loss := y.Times(half, m)
	loss.Own++
	turn := loss.Inverse(m)
	l := &line{m: m, z: x.Z, delay: delay}
	l.a = lineEnd{
		m: m, y: turn.Times(y, m), turn: turn, r: half,
		own: rings[:size], far: rings[size:], mask: size - 1, next: 1,
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
		c.put(e.node[i], e.node[i], e.y.Own)
		for j := range e.m {
			c.put(e.node[i], e.node[j], e.y.Mutual)
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
	sum, own := e.turn.Mutual*((v0+v1)+(v2+v3)), e.turn.Own
	e.driven = wave{own*v0 + sum, own*v1 + sum, own*v2 + sum, own*v3 + sum}
	if e.front {
		inj := (*wave)(c.inj)
		inj[0] += e.driven[0]
		inj[1] += e.driven[1]
		inj[2] += e.driven[2]
		inj[3] += e.driven[3]
		return
	}
	for k := range e.m {
		c.inj[e.node[k]] += e.driven[k]
	}
}

// after sends the wave of the step on its way.
func (e *lineEnd) after(c *cluster) {
	out := &e.own[e.next&e.mask]
	e.next++
	if e.front {
		e.sendFront((*wave)(c.v), out)
		return
	}
	sum := 0.0
	for k := range e.m {
		sum += c.v[e.node[k]]
	}
	sum *= e.y.Mutual
	for k := range e.m {
		i := e.y.Own*c.v[e.node[k]] + sum - e.driven[k]
		out[k] = 2*i + e.arrives[k]
	}
}

// sendFront is after for four conductors in front, written out.
func (e *lineEnd) sendFront(v, out *wave) {
	sum, own := e.y.Mutual*((v[0]+v[1])+(v[2]+v[3])), e.y.Own
	out[0] = 2*(own*v[0]+sum-e.driven[0]) + e.arrives[0]
	out[1] = 2*(own*v[1]+sum-e.driven[1]) + e.arrives[1]
	out[2] = 2*(own*v[2]+sum-e.driven[2]) + e.arrives[2]
	out[3] = 2*(own*v[3]+sum-e.driven[3]) + e.arrives[3]
}

// power returns the heat in the resistance at the end after a step, W.
func (e *lineEnd) power() float64 {
	sent := &e.own[(e.next-1)&e.mask]
	total, squares := 0.0, 0.0
	for k := range e.m {
		i := (sent[k] - e.arrives[k]) / 2
		total += i
		squares += i * i
	}
	return e.r.Own*squares + e.r.Mutual*total*total
}

// stored returns the energy of the waves on their way from one end, J: each
// carries ¼ wᵀ Z w.
func (e *lineEnd) stored(z circuit.Balanced, delay, h float64) float64 {
	sum := 0.0
	steps := int(math.Ceil(min(delay, float64(len(e.own)))))
	for back := range steps {
		w := &e.own[(e.next-1-back)&e.mask]
		total, squares := 0.0, 0.0
		for k := range e.m {
			total += w[k]
			squares += w[k] * w[k]
		}
		weight := min(1, delay-float64(back))
		sum += weight * (z.Own*squares + z.Mutual*total*total)
	}
	return sum / 4 * h
}
