package assess

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"clampline/analysis"
)

// All buses have the first runs; a bus has more until the share of runs in which it
// holds is known well enough.
const (
	firstRuns = 400
	moreRuns  = 200 // at a time
)

// shareError is the standard error of a share from which on more runs are of no use:
// two seeds then differ by less than 1.4 % in 19 of 20 cases.
const shareError = 0.005

// sample is what came about at a bus, run by run, and what that tells.
type sample struct {
	outcomes   []outcome
	share, off float64 // of the runs in which it holds, and the standard error of that
	known      bool    // well enough
}

type outcome struct {
	place []float64 // of the figures
	peaks modePeaks
	holds bool
}

// sampled solves runs until the share of every bus is known well enough, or as many as
// there may be. With the samples of the buses it returns the first runs, and where the
// figures were in them.
func (b *bander) sampled(ctx context.Context) (samples []sample, places [][]float64, first []run, err error) {
	samples = make([]sample, len(b.buses))
	b.cloud = hypercube(guesses, len(b.spans), b.Seed, math.MaxUint64)
	places = hypercube(min(firstRuns, b.most()), len(b.spans), b.Seed, 0)
	if first, err = b.take(ctx, places, samples); err != nil {
		return nil, nil, nil, err
	}
	for done := len(places); done < b.most() && slices.ContainsFunc(samples, isOpen); {
		more := hypercube(min(moreRuns, b.most()-done), len(b.spans), b.Seed, uint64(done))
		b.of += len(more)
		if _, err := b.take(ctx, more, samples); err != nil {
			return nil, nil, nil, err
		}
		done += len(more)
	}
	return samples, places, first, nil
}

func isOpen(s sample) bool { return !s.known }

// take solves runs with the cases that count for the buses whose share is not known
// well enough, and finds it anew.
func (b *bander) take(ctx context.Context, places [][]float64, samples []sample) ([]run, error) {
	runs, err := b.runAll(ctx, places, b.casesFor(samples))
	if err != nil {
		return nil, err
	}
	sideBySide(len(b.buses), func(i int) {
		s := &samples[i]
		if s.known || ctx.Err() != nil {
			return
		}
		for k, r := range runs {
			if r != nil {
				s.outcomes = append(s.outcomes, outcome{places[k], r[i], holds(b.buses[i], r[i])})
			}
		}
		s.share, s.off = b.share(i, s.outcomes)
		s.known = s.off <= shareError
	})
	return runs, ctx.Err()
}

// casesFor returns the cases that count for some of the buses whose share is not known
// well enough.
func (b *bander) casesFor(samples []sample) []bandCase {
	var out []bandCase
	for _, c := range b.cases {
		if slices.ContainsFunc(c.buses, func(i int) bool { return !samples[i].known }) {
			out = append(out, c)
		}
	}
	return out
}

// Each fold of the runs is told by a surface that was fitted to the others.
const folds = 4

// guesses is at how many places a surface tells in what share of them a bus holds.
const guesses = 20_000

// share returns the share of runs in which the bus of a number holds, and its standard
// error.
//
// The runs alone tell it worse than a few thousand of them should: what counts of each
// is yes or no. So a surface is fitted to how far a bus is from its withstand. It
// guesses the share at many places where nothing is solved, and the runs only have to
// tell by how much such guesses are off, which is little (a control variate). A run is
// never guessed by a surface that knows it, so nothing is lost where the surface is
// bad: the guesses then cancel, and the share is that of the runs.
//
// Where a protector is destroyed in some runs the voltage leaps, and no surface follows
// it; then one that parts the runs that hold from the others is better. Of the two that
// counts which is less off.
func (b *bander) share(at int, s []outcome) (share, off float64) {
	raw := held(s)
	switch {
	case b.buses[at].Worst().Withstand <= 0:
		return 0, 0
	case raw == 0 || raw == 1:
		return raw, 0
	case len(s) < folds*runsForTerm:
		return raw, math.Sqrt(raw * (1 - raw) / float64(len(s)))
	}
	share, off = b.shareBy(fit, s, func(o outcome) float64 { return 1 - usedOf(b.buses[at], o.peaks) })
	if other, less := b.shareBy(fitSides, s, func(o outcome) float64 { return 2*asNumber(o.holds) - 1 }); less < off {
		share, off = other, less
	}
	one := 1 / float64(len(s)) // some runs hold, some do not
	return min(max(share, one), 1-one), off
}

// shareBy is share by surfaces of one sort, fitted to a value of each run that is above
// zero where the bus holds.
func (b *bander) shareBy(fit func([]span, [][]float64, []float64) surface, s []outcome, value func(outcome) float64) (share, off float64) {
	rest := make([]float64, len(s))
	for fold := range folds {
		var places [][]float64
		var values []float64
		for i, o := range s {
			if i%folds != fold {
				places, values = append(places, o.place), append(values, value(o))
			}
		}
		told := fit(b.spans, places, values)
		sum := 0.0
		for _, place := range b.cloud {
			sum += told.holds(place)
		}
		share += sum / guesses / folds
		for i := fold; i < len(s); i += folds {
			rest[i] = asNumber(s[i].holds) - told.holds(s[i].place)
		}
	}
	mean, spread := stat.MeanStdDev(rest, nil)
	return share + mean, spread / math.Sqrt(float64(len(s)))
}

func held(s []outcome) float64 {
	out := 0.0
	for _, o := range s {
		out += asNumber(o.holds)
	}
	return out / float64(len(s))
}

func asNumber(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// usedOf returns the greatest share of its withstand that a bus sees in a mode that is
// judged.
func usedOf(bus analysis.BusResult, peaks modePeaks) float64 {
	out := 0.0
	for _, level := range bus.Levels {
		if level.Judged && level.Withstand > 0 {
			out = max(out, peaks[level.Mode]/level.Withstand)
		}
	}
	return out
}

// holds returns how likely a bus holds at a place.
func (s surface) holds(place []float64) float64 {
	return distuv.UnitNormal.CDF(s.at(place) / max(s.off, 1e-9))
}
