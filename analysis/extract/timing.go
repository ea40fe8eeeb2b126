package extract

import (
	"clampline/diagram"
)

// timing is the step and the duration that suit a wave.
type timing struct{ step, duration float64 } // s

// timingOf returns a step by which peaks are within about half a per cent of
// what ever shorter steps lead to (the leads of protectors and short branches
// swing at some megahertz), and a duration after which the current that the
// wave drives is spent.
func timingOf(wave diagram.Wave) timing {
	switch wave {
	case diagram.RingWave:
		return timing{5e-9, 40e-6}
	case diagram.CurrentWave:
		return timing{5e-9, 60e-6}
	case diagram.ImpulseWave:
		return timing{20e-9, 1500e-6}
	case diagram.LongWave:
		return timing{20e-9, 3000e-6}
	case diagram.BurstWave:
		return timing{0.1e-9, 0.6e-6}
	}
	return timing{5e-9, 60e-6}
}

// IsLong reports whether a wave takes many times as long as others to be solved.
func IsLong(wave diagram.Wave) bool { return timingOf(wave).duration > 1e-3 }

// hasGaps reports whether a protector of the plan has a gap. One that fires
// makes fronts much steeper than those of the surge, so the step is halved.
func (x *extractor) hasGaps() bool {
	for p := range x.Document.ProtectorsOf(x.Plan) {
		for _, mode := range p.Modes {
			if mode.Connected && mode.Switching {
				return true
			}
		}
	}
	return false
}

// mostSteps is the longest Duration of a circuit, in steps. With 100 buses that
// takes about a minute.
const mostSteps = 5_000_000

// wait sets the duration: that of the wave and the time that the surge takes to the
// farthest place and back. An error names that where it is beyond all measure.
func (x *extractor) wait() error {
	farthest, delay := x.farthest()
	x.out.Duration, x.out.Longest = x.timing.duration+2*delay, 2*x.timing.duration+2*delay
	if x.out.Duration/x.timing.step > mostSteps {
		return x.problem("shorten the feeders to it", "it takes %.3g µs to %s, longer than can be solved", delay*1e6, x.nameOf(x.places[farthest]))
	}
	return nil
}

// farthest returns the place that a surge reaches last, and after which time, s.
func (x *extractor) farthest() (place int, delay float64) {
	arrival := map[int]float64{x.setOf(x.start): 0}
	queue := []int{x.setOf(x.start)}
	next := map[int][]crossing{}
	for _, c := range x.crossings {
		a, b := x.setOf(c.a), x.setOf(c.b)
		next[a], next[b] = append(next[a], crossing{a, b, c.delay}), append(next[b], crossing{b, a, c.delay})
	}
	for done := 0; done < len(queue); done++ {
		for _, c := range next[queue[done]] {
			at := arrival[c.a] + c.delay
			if known, ok := arrival[c.b]; !ok || at < known {
				arrival[c.b] = at
				queue = append(queue, c.b)
			}
		}
	}
	place = x.start
	for i := range x.places {
		if at, ok := arrival[x.setOf(i)]; ok && at > delay {
			place, delay = i, at
		}
	}
	return place, delay
}

// crossing is the time that a wave takes between two places.
type crossing struct {
	a, b  int
	delay float64
}
