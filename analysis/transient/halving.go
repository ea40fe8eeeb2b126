package transient

import (
	"context"
	"math"

	"clampline/analysis/circuit"
)

// Halving tells how far the peaks move when the step is halved: about the
// error of the longer one.
type Halving struct {
	Bus   int     // that moves most
	Pair  int     // of its conductors, in the order of circuit.Pairs
	From  float64 // V, its peak
	To    float64 // V, by half the step
	Share float64 // by which it moves, of the peak or of smallPart of the highest of all, if that is more
}

// smallPart is below which share of the highest peak of a network a peak
// counts as small: its own error matters to nobody.
const smallPart = 0.02

// Halve solves a network twice, by the step of the options and by half of it,
// and compares all peaks. Errors are those of New and Run.
func Halve(ctx context.Context, n *circuit.Network, o Options) (Halving, error) {
	var results [2]*Result
	for i := range results {
		solver, err := New(n, Options{Step: o.Step / float64(1+i), Duration: o.Duration})
		if err != nil {
			return Halving{}, err
		}
		if results[i], err = solver.Run(ctx); err != nil {
			return Halving{}, err
		}
	}
	return compare(results[0], results[1]), nil
}

func compare(whole, half *Result) Halving {
	highest := 0.0
	for _, peaks := range half.Buses {
		for _, peak := range peaks {
			highest = max(highest, peak.Volts)
		}
	}
	var out Halving
	for bus, peaks := range half.Buses {
		for pair, to := range peaks {
			from := whole.Buses[bus][pair]
			share := math.Abs(from.Volts-to.Volts) / max(to.Volts, smallPart*highest)
			if share > out.Share {
				out = Halving{bus, pair, from.Volts, to.Volts, share}
			}
		}
	}
	return out
}
