package transient

import (
	"math"

	"clampline/analysis/waveform"
)

// Result is what a run has found.
type Result struct {
	Step      float64          // s
	Steps     int              // how many were taken
	Buses     [][]Peak         // by bus, then in the order of circuit.Pairs
	Varistors []Duty           // by varistor
	Gaps      []Duty           // by gap
	Lines     [][]LinePeak     // by line, from its end A to its end B, the ends left out
	Traces    []waveform.Trace // by probe
	Energy    Energy
}

// Peak is the greatest voltage between two conductors.
type Peak struct {
	Volts float64 // magnitude
	At    float64 // s
}

// LinePeak is the greatest voltage at one place inside a line.
type LinePeak struct {
	Share float64   // of the way from its end A
	Volts []float64 // magnitude, in the order of circuit.Pairs
}

// Duty is what a varistor or gap has gone through.
type Duty struct {
	Amps     float64 // greatest magnitude
	At       float64 // s, when that was
	Coulombs float64 // integral of the magnitude of the current
	Joules   float64 // turned to heat
	step     int
}

func (d *Duty) add(amps, watts, h float64, k int) {
	size := math.Abs(amps)
	if size > d.Amps {
		d.Amps, d.step = size, k
	}
	d.Coulombs += size * h
	d.Joules += watts * h
}

// Energy is the balance of a run, J.
type Energy struct {
	Delivered float64 // by charged capacitors and sources
	Returned  float64 // taken back by sources, of a surge that swings
	Lost      float64 // turned to heat, in varistors and gaps too
	Stored    float64 // left in capacitors that were not charged, inductors and lines
}

// Error returns what the balance lacks, as a share of what was delivered; 1 for
// one that makes no sense.
func (e Energy) Error() float64 {
	missing := math.Abs(e.Delivered - e.Returned - e.Lost - e.Stored)
	if missing == 0 {
		return 0
	}
	if share := missing / e.Delivered; share >= 0 && !math.IsInf(share, 0) {
		return share
	}
	return 1
}

func (s *Solver) result() *Result {
	out := &Result{
		Step: s.options.Step, Steps: s.done,
		Buses: make([][]Peak, len(s.network.Buses)), Varistors: make([]Duty, len(s.network.Varistors)),
		Gaps: make([]Duty, len(s.network.Gaps)), Lines: make([][]LinePeak, len(s.lines)),
	}
	for _, c := range s.clusters {
		c.report(out)
	}
	for i, l := range s.lines {
		out.Lines[i] = l.inside()
		out.Energy.Stored += l.a.stored(&l.full, l.delay, s.options.Step) + l.b.stored(&l.full, l.delay, s.options.Step)
	}
	for _, t := range s.traces {
		out.Traces = append(out.Traces, waveform.Trace{Step: s.options.Step, Values: t.values[: s.done+1 : s.done+1]})
	}
	return out
}

// report adds what has happened in the cluster.
func (c *cluster) report(out *Result) {
	for _, b := range c.buses {
		peaks := make([]Peak, b.m*(b.m+1)/2)
		for i := range peaks {
			volts, step := b.peaks.of(pairs[b.m][i])
			peaks[i] = Peak{volts, float64(step) * c.h}
		}
		out.Buses[b.number] = peaks
	}
	for _, l := range c.limiters {
		duty := l.duty
		duty.At = float64(duty.step) * c.h
		switch {
		case l.gap != nil:
			out.Gaps[l.number] = duty
		case l.diode == nil:
			out.Varistors[l.number] = duty
		}
	}
	e := &out.Energy
	e.Lost += c.limited + c.lost + c.elsewhere()
	e.Delivered += c.driven
	e.Returned += c.returned
	for i := range c.capacitors {
		x := &c.capacitors[i]
		if x.charged != 0 {
			e.Delivered += 0.5*x.farads*x.charged*x.charged - x.stored(c)
		} else {
			e.Stored += x.stored(c)
		}
	}
	for i := range c.inductors {
		e.Stored += c.inductors[i].stored()
	}
	for i := range c.windings {
		e.Stored += c.windings[i].stored()
	}
}
