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

// BandRuns is the usual number of runs. With so many the shares in which buses hold
// differ by 1.7 % between two seeds (root of the mean square, where they are near one
// half); with 200 by 2.6 %. Halton points do no better from some 20 figures on.
const BandRuns = 400

// BandOptions say how bands are found.
type BandOptions struct {
	Runs     int                // 0 stands for BandRuns
	Seed     uint64             // the same gives the same numbers, whatever the number of processors
	Progress func(done, of int) // is told how many runs are done, one call at a time; may be nil. of is a guess until the end is near
}

// Band tells of each board and load with a voltage how far that can be off, by runs
// in which every figure that nobody knows for sure (spansOf) lies anywhere within its
// range, by a Latin hypercube. Surges are those of Transient; doc is a snapshot.
//
// A run solves the surge cases, each from one place, that decide at some bus on the
// sheet as it is, and those that come second there within 40 %, and judges each bus
// by these. Where another case than these took over in a run it is missed.
//
// By rank correlation over the runs those figures are found that may matter at a bus;
// each of these is then moved alone to the ends of its range, since a correlation of
// some hundred runs tells of a small voltage only by chance.
//
// A run that cannot be solved does not count; where more than a tenth cannot, the
// first error is returned. Other errors are those of Transient.
func (e *Engine) Band(ctx context.Context, doc *diagram.Document, plan diagram.ID, surges []diagram.Surge, o BandOptions) (map[diagram.ID]analysis.Band, error) {
	b, err := e.bander(ctx, doc, plan, surges, spansOf(doc, plan))
	if err != nil {
		return nil, err
	}
	b.BandOptions = o
	return b.find(ctx)
}

// bander solves the sheet as it is and returns what its bands are found with.
func (e *Engine) bander(ctx context.Context, doc *diagram.Document, plan diagram.ID, surges []diagram.Surge, spans []span) (*bander, error) {
	if len(surges) == 0 {
		surges = analysis.SurgesOf(doc)
	}
	result, solved, err := e.cases(ctx, doc, plan, Turn{}, surges)
	if err != nil {
		return nil, err
	}
	b := &bander{engine: e, spans: spans}
	long := longCases(doc, solved)
	for _, bus := range result.Buses {
		if worst := bus.Worst(); worst.Known && !long[worst.Surge] {
			b.buses = append(b.buses, bus)
		}
	}
	slices.SortFunc(b.buses, func(x, y analysis.BusResult) int { return diagram.CompareID(x.ID, y.ID) })
	b.cases = deciding(b.buses, slices.DeleteFunc(slices.Clone(solved), func(c solvedCase) bool { return isLong(c.surge.Wave) }))
	return b, nil
}

// longCases returns the names of the cases whose wave takes too long for some hundred
// runs, as that of a flash to the building does: what they decide gets no band.
func longCases(doc *diagram.Document, solved []solvedCase) map[string]bool {
	out := map[string]bool{}
	for _, c := range solved {
		if isLong(c.surge.Wave) {
			out[analysis.SurgeName(doc, c.surge)] = true
		}
	}
	return out
}

// bander is the work in hand.
type bander struct {
	BandOptions
	engine *Engine
	spans  []span
	cases  []extract.Input
	buses  []analysis.BusResult // those that get a band, in the order of the ids

	telling   sync.Mutex // guards done
	done      int
	of, guess int // runs to be solved: sure ones, and how many more may come
}

// modePeaks are the greatest voltages of a bus, V, by mode.
type modePeaks [diagram.ModeCount]float64

// run is one outcome: by bus the greatest voltages of all cases.
type run []modePeaks

func (b *bander) find(ctx context.Context) (map[diagram.ID]analysis.Band, error) {
	b.of = cmp.Or(max(b.Runs, 0), BandRuns)
	b.guess = 2 * min(b.of, len(b.spans), rangesTried*len(b.buses)+1)
	places := hypercube(b.of, len(b.spans), b.Seed)
	runs, err := b.runAll(ctx, places)
	if err != nil {
		return nil, err
	}
	out := make(map[diagram.ID]analysis.Band, len(b.buses))
	for i, bus := range b.buses {
		out[bus.ID] = bandOf(bus, i, runs)
	}
	moved, err := b.moveAlone(ctx, b.candidates(ctx, places, runs))
	if err != nil {
		return nil, err
	}
	for i, bus := range b.buses {
		band := out[bus.ID]
		band.Ranges = b.ranges(i, moved)
		out[bus.ID] = band
	}
	return out, nil
}

// hypercube returns the places of the figures in each run.
func hypercube(runs, figures int, seed uint64) [][]float64 {
	out := make([][]float64, runs)
	if figures == 0 {
		return out
	}
	batch := mat.NewDense(runs, figures, nil)
	samplemv.LatinHypercube{Q: distmv.NewUnitUniform(figures, nil), Src: rand.NewPCG(seed, 0)}.Sample(batch)
	for i := range out {
		out[i] = batch.RawRowView(i)
	}
	return out
}

// runAll solves the cases with the figures at each of some places. A run that cannot
// be solved is nil.
func (b *bander) runAll(ctx context.Context, places [][]float64) ([]run, error) {
	out, errs := make([]run, len(places)), make([]error, len(places))
	sideBySide(len(places), func(i int) {
		if out[i], errs[i] = b.run(ctx, vary(b.spans, places[i])); ctx.Err() == nil {
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

func (b *bander) run(ctx context.Context, v *extract.Vary) (run, error) {
	out := make(run, len(b.buses))
	for _, in := range b.cases {
		in.Vary = v
		s, err := b.engine.surviving(ctx, in)
		if err != nil {
			return nil, err
		}
		peaks := s.outcome().Buses
		for i, bus := range b.buses {
			for _, peak := range peaks[bus.ID] {
				out[i][peak.Mode] = max(out[i][peak.Mode], peak.Volts)
			}
		}
	}
	return out, nil
}

// bandOf returns the band of the bus of a number, without its ranges.
func bandOf(bus analysis.BusResult, at int, runs []run) analysis.Band {
	worst := bus.Worst()
	out := analysis.Band{Mode: worst.Mode, Withstand: worst.Withstand}
	var volts []float64
	held := 0
	for _, r := range runs {
		if r == nil {
			continue
		}
		volts = append(volts, r[at][worst.Mode])
		if holds(bus, r[at]) {
			held++
		}
	}
	slices.Sort(volts)
	out.Runs = len(volts)
	out.Low, out.High = stat.Quantile(0.05, stat.LinInterp, volts, nil), stat.Quantile(0.95, stat.LinInterp, volts, nil)
	if worst.Withstand > 0 {
		out.Holds = float64(held) / float64(out.Runs)
	}
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
