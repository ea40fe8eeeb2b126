package transient

import (
	"math"
)

// sampleEvery is after how many steps the voltages inside the lines are
// looked at, at the end of a block: often enough for a surge, whose front takes a
// hundred steps.
const sampleEvery = block

// place is a point inside a line.
type place struct {
	share        float64 // of the way from end A to end B
	fromA, fromB int     // steps that a wave takes from each end
	peaks        extremes
}

// place spreads n points evenly inside the line.
func (l *line) place(n int) {
	l.along = make([]place, n)
	for i := range l.along {
		share := float64(i+1) / float64(n+1)
		l.along[i] = place{share: share, fromA: min(int(math.Round(share*l.delay)), l.a.own.mask), fromB: min(int(math.Round((1-share)*l.delay)), l.a.own.mask)}
	}
}

// sample looks at the voltages inside the line after a step: half of Z times
// the two waves that meet there.
func (l *line) sample() {
	last := l.a.next - 1
	for i := range l.along {
		p := &l.along[i]
		a, b := l.a.own.at(last-p.fromA), l.b.own.at(last-p.fromB)
		var both, v wave
		for k := range both {
			both[k] = a[k] + b[k]
		}
		l.meets.times(v[:], both[:])
		p.peaks.look(v[:], len(v), 1, &wave{}, last)
	}
}

// inside returns what was seen inside the line so far.
func (l *line) inside() []LinePeak {
	of := pairs[l.m]
	volts, out := make([]float64, 0, len(of)*len(l.along)), make([]LinePeak, len(l.along))
	for i := range l.along {
		p := &l.along[i]
		for _, pair := range of {
			size, _ := p.peaks.of(pair)
			volts = append(volts, size)
		}
		out[i] = LinePeak{p.share, volts[len(volts)-len(of):]}
	}
	return out
}
