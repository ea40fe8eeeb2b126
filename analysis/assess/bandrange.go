package assess

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"clampline/analysis"
)

const (
	rangesTold  = 3 // of each bus
	rangesTried = 5 // of each bus, those that correlate most
)

// candidates returns the numbers of the figures that may be among those that matter
// most at some bus, from the most likely on, no more than there are runs. The ranks of
// places lie as evenly as they do themselves. A figure that is tried at other places
// than its ends need not rise or fall, so it is always one of them.
func (b *bander) candidates(ctx context.Context, places [][]float64, runs []run) []int {
	var out []int
	chosen := make([]bool, len(b.spans))
	add := func(figure int) {
		if !chosen[figure] && len(out) < len(places) {
			chosen[figure], out = true, append(out, figure)
		}
	}
	for i, s := range b.spans {
		if s.tries != nil {
			add(i)
		}
	}
	orders := make([][]int, len(b.buses))
	sideBySide(len(b.buses), func(i int) {
		if ctx.Err() == nil {
			orders[i] = b.byCorrelation(i, places, runs)
		}
	})
	for place := range min(rangesTried, len(b.spans)) {
		for _, order := range orders {
			if order != nil { // else the context has ended, which the next runs tell
				add(order[place])
			}
		}
	}
	return out
}

// byCorrelation returns the numbers of the figures, those first with which the ranks
// of the voltages of a bus correlate most.
func (b *bander) byCorrelation(bus int, places [][]float64, runs []run) []int {
	mode := b.buses[bus].Worst().Mode
	var at []int
	var volts []float64
	for i, r := range runs {
		if r != nil {
			at, volts = append(at, i), append(volts, r[bus][mode])
		}
	}
	ranks, column := ranksOf(volts), make([]float64, len(at))
	size, order := make([]float64, len(b.spans)), make([]int, len(b.spans))
	for figure := range b.spans {
		for k, i := range at {
			column[k] = places[i][figure]
		}
		order[figure] = figure
		if c := stat.Correlation(column, ranks, nil); !math.IsNaN(c) {
			size[figure] = math.Abs(c)
		}
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(size[y], size[x]) })
	return order
}

// ranksOf returns the rank of each value; equal ones have those in their order.
func ranksOf(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(values[x], values[y]) })
	out := make([]float64, len(values))
	for rank, i := range order {
		out[i] = float64(rank)
	}
	return out
}

// movedRun is what comes about where one figure alone is moved.
type movedRun struct {
	figure int
	run    run // nil where it cannot be solved
}

// moveAlone moves each of some figures alone.
func (b *bander) moveAlone(ctx context.Context, figures []int) ([]movedRun, error) {
	var moved []movedRun
	var places [][]float64
	for _, figure := range figures {
		for _, at := range b.spans[figure].triesOf() {
			moved, places = append(moved, movedRun{figure: figure}), append(places, alone(b.spans, figure, at))
		}
	}
	b.of, b.guess = b.of+len(places), 0
	runs, err := b.runAll(ctx, places, b.cases)
	for i := range runs {
		moved[i].run = runs[i]
	}
	return moved, err
}

// ranges returns the figures that move the voltage of a bus most.
func (b *bander) ranges(bus int, moved []movedRun) []analysis.BandRange {
	mode := b.buses[bus].Worst().Mode
	low, high := map[int]float64{}, map[int]float64{}
	for _, m := range moved {
		if m.run == nil {
			continue
		}
		volts := m.run[bus][mode]
		if _, known := low[m.figure]; !known {
			low[m.figure], high[m.figure] = volts, volts
		}
		low[m.figure], high[m.figure] = min(low[m.figure], volts), max(high[m.figure], volts)
	}
	var out []analysis.BandRange
	for figure, s := range b.spans {
		if half := (high[figure] - low[figure]) / 2; half >= leastVolts {
			out = append(out, analysis.BandRange{Record: s.record, What: s.what, Volts: half, Source: s.source})
		}
	}
	slices.SortStableFunc(out, func(x, y analysis.BandRange) int { return cmp.Compare(y.Volts, x.Volts) })
	return out[:min(rangesTold, len(out))]
}

// leastVolts is below which nothing is told of what a figure does, V.
const leastVolts = 0.5
