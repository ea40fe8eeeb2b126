package transient

import (
	"math"

	"clampline/analysis/circuit"
)

// sampleEvery is after how many steps the voltages inside the lines are
// looked at, at the end of a block: often enough for a surge, whose front takes a
// hundred steps.
const sampleEvery = block

// place is a point inside a line.
type place struct {
	share        float64 // of the way from end A to end B
	fromA, fromB int     // steps that a wave takes from each end
	peaks        [maxPairs]float64
}

// maxPairs is how many pairs a bundle has, earth included.
const maxPairs = circuit.MaxConductors * (circuit.MaxConductors + 1) / 2

// place spreads n points evenly inside the line.
func (l *line) place(n int) {
	l.along = make([]place, n)
	for i := range l.along {
		share := float64(i+1) / float64(n+1)
		l.along[i] = place{share: share, fromA: min(int(math.Round(share*l.delay)), l.a.mask), fromB: min(int(math.Round((1-share)*l.delay)), l.a.mask)}
	}
}

// sample looks at the voltages inside the line after a step: half of Z times
// the two waves that meet there.
func (l *line) sample() {
	last, mask := l.a.next-1, l.a.mask
	z := &l.z
	for i := range l.along {
		p := &l.along[i]
		a, b := &l.a.own[(last-p.fromA)&mask], &l.b.own[(last-p.fromB)&mask]
		w0, w1, w2, w3 := 0.5*(a[0]+b[0]), 0.5*(a[1]+b[1]), 0.5*(a[2]+b[2]), 0.5*(a[3]+b[3])
		v := wave{
			(z[0][0]*w0 + z[0][1]*w1) + (z[0][2]*w2 + z[0][3]*w3),
			(z[1][0]*w0 + z[1][1]*w1) + (z[1][2]*w2 + z[1][3]*w3),
			(z[2][0]*w0 + z[2][1]*w1) + (z[2][2]*w2 + z[2][3]*w3),
			(z[3][0]*w0 + z[3][1]*w1) + (z[3][2]*w2 + z[3][3]*w3),
		}
		keep(&p.peaks, &v, l.m)
	}
}

// inside returns what was seen inside the line so far.
func (l *line) inside() []LinePeak {
	pairs := l.m * (l.m + 1) / 2
	volts, out := make([]float64, 0, pairs*len(l.along)), make([]LinePeak, len(l.along))
	for i := range l.along {
		p := &l.along[i]
		volts = append(volts, p.peaks[:pairs]...)
		out[i] = LinePeak{p.share, volts[len(volts)-pairs:]}
	}
	return out
}

// keep raises the peaks to the voltages of m conductors and their pairs.
func keep(peaks *[maxPairs]float64, v *wave, m int) {
	at := m
	for i := range m {
		raise(&peaks[i], math.Abs(v[i]))
		for j := i + 1; j < m; j++ {
			raise(&peaks[at], math.Abs(v[i]-v[j]))
			at++
		}
	}
}

// raise is quicker than max, which asks for what is no number; a run that has
// come to that ends without a result.
func raise(peak *float64, volts float64) {
	if volts > *peak {
		*peak = volts
	}
}
