package extract

import "clampline/diagram"

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

// wait lengthens the duration by the time that a wave takes there and back on
// the longest feeder, up to five times what it was.
func (x *extractor) wait(delay float64) {
	x.out.Duration = max(x.out.Duration, min(x.timing.duration+2*delay, 5*x.timing.duration))
}
