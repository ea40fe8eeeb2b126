package waveform

import (
	"errors"
	"fmt"
	"math"
)

// Lower levels of the straight line of a front, as shares of the crest; the
// upper one is frontTop (IEC 60060-1).
const (
	voltageFoot = 0.3
	currentFoot = 0.1
	frontTop    = 0.9
	half        = 0.5
)

// VoltageFront returns the front of a voltage, (t90 - t30)/0.6, s.
func (t Trace) VoltageFront() (float64, error) {
	_, front, err := t.front(voltageFoot)
	return front, err
}

// CurrentFront returns the front of a current, 1.25 (t90 - t10), s.
func (t Trace) CurrentFront() (float64, error) {
	_, front, err := t.front(currentFoot)
	return front, err
}

// VoltageTail returns the time to half of a voltage, s: from the virtual
// origin, t30 - 0.5 (t90 - t30), to 50 % on the tail.
func (t Trace) VoltageTail() (float64, error) { return t.tail(voltageFoot) }

// CurrentTail returns the time to half of a current, s: from the virtual
// origin, t10 - 0.125 (t90 - t10), to 50 % on the tail.
func (t Trace) CurrentTail() (float64, error) { return t.tail(currentFoot) }

// Width returns the time from 50 % before the crest to 50 % after it, s.
func (t Trace) Width() (float64, error) {
	begin, err := t.rise(half)
	if err != nil {
		return 0, err
	}
	end, err := t.fall(half)
	if err != nil {
		return 0, err
	}
	return end - begin, nil
}

// RiseTime returns the time from 10 to 90 %, s.
func (t Trace) RiseTime() (float64, error) {
	_, front, err := t.front(currentFoot)
	return (frontTop - currentFoot) * front, err
}

// front returns the times of the straight line through a lower level and 90 %:
// where it crosses zero, and how long it takes from there to the crest.
func (t Trace) front(foot float64) (origin, front float64, err error) {
	low, err := t.rise(foot)
	if err != nil {
		return 0, 0, err
	}
	high, err := t.rise(frontTop)
	if err != nil {
		return 0, 0, err
	}
	front = (high - low) / (frontTop - foot)
	return low - foot*front, front, nil
}

// tail returns the time from the virtual origin to 50 % on the tail.
func (t Trace) tail(foot float64) (float64, error) {
	origin, _, err := t.front(foot)
	if err != nil {
		return 0, err
	}
	end, err := t.fall(half)
	if err != nil {
		return 0, err
	}
	return end - origin, nil
}

// rise returns the time at which the trace first reaches a share of its crest.
func (t Trace) rise(share float64) (float64, error) {
	top, err := t.measurable()
	if err != nil {
		return 0, err
	}
	crest := t.Values[top]
	if t.Values[0]/crest >= share {
		return 0, fmt.Errorf("the trace is above %g %% of its crest where it begins, at %g s: begin it before the surge", 100*share, t.Start)
	}
	i := 1
	for t.Values[i]/crest < share { // ends at the crest
		i++
	}
	return t.crossing(i, share*crest), nil
}

// fall returns the time after the crest at which the trace first is down to a
// share of it. The trace has a crest: it has been found to rise.
func (t Trace) fall(share float64) (float64, error) {
	top := t.crest()
	crest := t.Values[top]
	for i := top + 1; i < len(t.Values); i++ {
		if t.Values[i]/crest <= share {
			return t.crossing(i, share*crest), nil
		}
	}
	end := t.time(float64(len(t.Values) - 1))
	return 0, fmt.Errorf("the trace is above %g %% of its crest where it ends, at %g s: make it longer", 100*share, end)
}

// crossing returns the time at which the straight piece that ends at a value
// passes a level.
func (t Trace) crossing(end int, level float64) float64 {
	from, to := t.Values[end-1], t.Values[end]
	return t.time(float64(end-1) + (level-from)/(to-from))
}

// measurable returns the place of the crest, or an error if the trace has none.
func (t Trace) measurable() (int, error) {
	if len(t.Values) == 0 {
		return 0, errors.New("the trace has no values: sample the wave first")
	}
	if !(t.Step > 0) {
		return 0, fmt.Errorf("the trace has a step of %g s: it must be above zero", t.Step)
	}
	for i, v := range t.Values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, fmt.Errorf("value %d of the trace, at %g s, is %g: all must be finite", i, t.time(float64(i)), v)
		}
	}
	top := t.crest()
	if t.Values[top] == 0 {
		return 0, errors.New("the trace is zero throughout: it has no crest to measure from")
	}
	return top, nil
}
