package transient

import (
	"context"
	"fmt"
	"math"

	"clampline/analysis/circuit"
)

// Options say how a network is solved.
type Options struct {
	Step     float64 // s; above zero, not longer than the delay of any line
	Duration float64 // s; above zero: the end of Run, and the latest to which RunTo goes
	Samples  int     // places inside each line at which peaks are kept; 0 for none
	Record   []Probe // the waves to keep
}

// Probe is a voltage whose whole wave is kept.
type Probe struct {
	Bus  int
	Pair circuit.Pair
}

// wholeSteps returns how many whole steps a time has.
func wholeSteps(time, step float64) int { return int(min(math.Floor(time/step+1e-9), 1e12)) }

// maxSteps bounds the work of one run.
const maxSteps = 50_000_000

// Solver is a network made ready to be solved once, in one go or in several.
type Solver struct {
	network  *circuit.Network
	options  Options
	steps    int // of the whole duration
	done     int // of them
	clusters []*cluster
	lines    []*line
	islands  []island
	traces   []*trace
}

// trace is a wave that is kept.
type trace struct {
	from, to int // local numbers in a cluster
	values   []float64
}

// New makes a network ready. An error says what is wrong with the network or
// the options, naming the bus or element.
// It stops where the context ends, with its error.
func New(ctx context.Context, n *circuit.Network, o Options) (*Solver, error) {
	if err := n.Validate(); err != nil {
		return nil, err
	}
	if err := o.check(n); err != nil {
		return nil, err
	}
	s := &Solver{network: n, options: o, steps: o.stepsTo(o.Duration)}
	b := newBuilder(s)
	if err := b.build(ctx); err != nil {
		return nil, err
	}
	return s, b.probes(o.Record)
}

func (o Options) check(n *circuit.Network) error {
	switch {
	case !(o.Step > 0) || math.IsInf(o.Step, 0):
		return fmt.Errorf("the step is %g s; it must be a number above zero", o.Step)
	case !(o.Duration > 0) || math.IsInf(o.Duration, 0):
		return fmt.Errorf("the duration is %g s; it must be a number above zero", o.Duration)
	case o.Duration/o.Step > maxSteps:
		return fmt.Errorf("%g s in steps of %g s are too many; at most %d can be solved", o.Duration, o.Step, maxSteps)
	case o.Samples < 0:
		return fmt.Errorf("%d samples inside each line; there can be none or more", o.Samples)
	}
	for _, l := range n.Lines {
		if l.Delay < o.Step*(1-1e-9) {
			return fmt.Errorf("line %s: its delay of %g s is shorter than the step of %g s; take a shorter step, or an inductor in its place", l.Name, l.Delay, o.Step)
		}
	}
	return o.checkWaves(n.Lines)
}

// Run solves the network from where it stands to the end of the duration. Errors
// and panics are those of RunTo.
func (s *Solver) Run(ctx context.Context) (*Result, error) { return s.RunTo(ctx, s.options.Duration) }

// RunTo solves the network from where it stands, at first the start, on to a time,
// s. The result is to the bit that of a run to there in one go, and nothing later
// alters it. It panics where the time is not after that of the run before, or is
// after the duration. An error says that the context has ended, or that a cluster
// could not be solved, naming one of its buses; there is no going on after it.
func (s *Solver) RunTo(ctx context.Context, time float64) (*Result, error) {
	end := s.options.stepsTo(time)
	if end <= s.done || end > s.steps {
		panic(fmt.Sprintf("transient: a run to step %d of %d, where %d are taken", end, s.steps, s.done))
	}
	s.extend(end)
	for s.done < end {
		last := min(s.done-s.done%block+block, end)
		for n := range s.islands {
			if n%256 == 0 { // a block of a large building takes some 20 ms, on a busy machine ten times as long
				if err := ctx.Err(); err != nil {
					return nil, err
				}
			}
			if c, k := s.islands[n].run(s.done, last); c != nil {
				return nil, fmt.Errorf("%s: no solution was found at %.3g µs; the surge or a curve is beyond all measure", c.name, float64(k)*s.options.Step*1e6)
			}
		}
		if s.done = last; s.done%sampleEvery == 0 {
			for _, l := range s.lines {
				l.sample()
			}
		}
	}
	return s.result(), nil
}

// stepsTo returns after how many steps a time is reached.
func (o Options) stepsTo(time float64) int {
	steps := wholeSteps(time, o.Step)
	if float64(steps)*o.Step < time*(1-1e-9) {
		steps++
	}
	return steps
}

// extend makes room for what is kept by step up to the last one, so that nothing is
// made while it steps.
func (s *Solver) extend(last int) {
	for _, c := range s.clusters {
		for i := range c.sources {
			c.sources[i].extend(last, c.h)
		}
	}
	for _, t := range s.traces {
		t.values = append(t.values, make([]float64, last+1-len(t.values))...)
	}
}
