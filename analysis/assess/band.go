package assess

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"
	"sync"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// BandRuns is the usual greatest number of runs of a bus. On the demos none has more than
// 1 600 until its share is known.
const BandRuns = 2000

// BandOptions say how bands are found.
type BandOptions struct {
	Runs     int                // how many a bus has at most; 0 stands for BandRuns
	Seed     uint64             // the same gives the same numbers, whatever the number of processors
	Progress func(done, of int) // is told how many runs are done, one call at a time; may be nil. of is a guess until the end is near
}

// Band tells of each board and load with a voltage how far that can be off, by runs
// in which every figure that nobody knows for sure (spansOf) lies anywhere within its
// range, by Latin hypercubes. The result is that of Transient on doc, a snapshot.
//
// A run solves the surge cases, each from one place, that decide at some bus on the
// sheet as it is, and those that come second there within 40 %, and judges each bus
// by those of them that come near there. Where another case took over in a run it is
// missed. Of a long wave, as that of a flash to the building, a run is solved to twice
// the time of its last high peak; further only where it is in doubt which protectors it
// destroys (bandCase.solve).
//
// By rank correlation over the runs those figures are found that may matter at a bus;
// each of these is then moved alone to the ends of its range, since a correlation of
// some hundred runs tells of a small voltage only by chance.
//
// A run that cannot be solved does not count; where more than a tenth cannot, the
// first error is returned. Other errors are those of Transient.
func (e *Engine) Band(ctx context.Context, doc *diagram.Document, result *analysis.Result, o BandOptions) (map[diagram.ID]analysis.Band, error) {
	b, err := e.bander(ctx, doc, result, spansOf(doc, result.Plan))
	if err != nil {
		return nil, err
	}
	b.BandOptions = o
	return b.find(ctx)
}

// bander returns what the bands of a result are found with.
func (e *Engine) bander(ctx context.Context, doc *diagram.Document, result *analysis.Result, spans []span) (*bander, error) {
	in := extract.Input{Document: doc, Plan: result.Plan, Topology: result.Topology}
	if err := e.calibrate(ctx, in); err != nil {
		return nil, err
	}
	in.Models = e.models
	b := &bander{engine: e, spans: spans}
	for _, bus := range result.Buses {
		if bus.Worst().Known {
			b.buses = append(b.buses, bus)
		}
	}
	slices.SortFunc(b.buses, func(x, y analysis.BusResult) int { return diagram.CompareID(x.ID, y.ID) })
	b.cases = deciding(in, b.buses, result.Surges)
	return b, each(ctx, len(b.cases), func(ctx context.Context, i int) error { return b.cases[i].foresee(ctx, e) })
}

// bander is the work in hand.
type bander struct {
	BandOptions
	engine *Engine
	spans  []span
	cases  []bandCase
	buses  []analysis.BusResult // those that get a band, in the order of the ids
	cloud  [][]float64          // the places of the guesses

	telling   sync.Mutex // guards done
	done      int
	of, guess int // runs to be solved: sure ones, and how many more may come
}

// modePeaks are the greatest voltages of a bus, V, by mode.
type modePeaks [diagram.ModeCount]float64

// run is one outcome: by bus the greatest voltages of all cases.
type run []modePeaks

// most is how many runs a bus has at most.
func (b *bander) most() int { return cmp.Or(max(b.Runs, 0), BandRuns) }

func (b *bander) find(ctx context.Context) (map[diagram.ID]analysis.Band, error) {
	b.of = min(firstRuns, b.most())
	b.guess = 2 * min(b.of, len(b.spans), rangesTried*len(b.buses)+1)
	samples, places, first, err := b.sampled(ctx)
	if err != nil {
		return nil, err
	}
	moved, err := b.moveAlone(ctx, b.candidates(ctx, places, first))
	if err != nil {
		return nil, err
	}
	out := make(map[diagram.ID]analysis.Band, len(b.buses))
	for i, bus := range b.buses {
		band := bandOf(bus, samples[i])
		band.Ranges = b.ranges(i, moved)
		out[bus.ID] = band
	}
	return out, nil
}

// hypercube returns the places of the figures in each run.
func hypercube(runs, figures int, seed, batch uint64) [][]float64 {
	out := make([][]float64, runs)
	if figures == 0 {
		return out
	}
	points := mat.NewDense(runs, figures, nil)
	samplemv.LatinHypercube{Q: distmv.NewUnitUniform(figures, nil), Src: rand.NewPCG(seed, batch)}.Sample(points)
	for i := range out {
		out[i] = points.RawRowView(i)
	}
	return out
}

// runAll solves some cases with the figures at each of some places. A run that cannot
// be solved is nil.
func (b *bander) runAll(ctx context.Context, places [][]float64, cases []bandCase) ([]run, error) {
	out, errs := make([]run, len(places)), make([]error, len(places))
	sideBySide(len(places), func(i int) {
		if out[i], errs[i] = b.run(ctx, cases, vary(b.spans, places[i])); ctx.Err() == nil {
			b.tell()
		}
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	failed := 0
	for _, err := range errs {
		if err != nil {
			failed++
		}
	}
	if 10*failed > len(places) {
		return nil, firstCause(errs)
	}
	return out, nil
}

func (b *bander) tell() {
	b.telling.Lock()
	defer b.telling.Unlock()
	if b.done++; b.Progress != nil {
		b.Progress(b.done, b.of+b.guess)
	}
}

func (b *bander) run(ctx context.Context, cases []bandCase, v *extract.Vary) (run, error) {
	out := make(run, len(b.buses))
	for _, c := range cases {
		s, err := c.solve(ctx, b.engine, v)
		if err != nil {
			return nil, err
		}
		peaks := s.alone().Buses
		for _, i := range c.buses {
			for _, peak := range peaks[b.buses[i].ID] {
				out[i][peak.Mode] = max(out[i][peak.Mode], peak.Volts)
			}
		}
	}
	return out, nil
}

// bandOf returns the band of a bus without its ranges.
func bandOf(bus analysis.BusResult, s sample) analysis.Band {
	worst := bus.Worst()
	out := analysis.Band{Mode: worst.Mode, Withstand: worst.Withstand, Holds: s.share, Off: s.off}
	var volts []float64
	for _, o := range s.outcomes {
		volts = append(volts, o.peaks[worst.Mode])
	}
	slices.Sort(volts)
	out.Runs = len(volts)
	out.Low, out.High = stat.Quantile(0.05, stat.LinInterp, volts, nil), stat.Quantile(0.95, stat.LinInterp, volts, nil)
	return out
}

// holds reports whether each mode of a bus that is judged stays within its withstand.
func holds(bus analysis.BusResult, peaks modePeaks) bool {
	for _, level := range bus.Levels {
		if level.Judged && analysis.Judge(peaks[level.Mode], level.Withstand) == analysis.Exceeded {
			return false
		}
	}
	return true
}
