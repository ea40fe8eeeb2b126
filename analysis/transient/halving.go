package transient

import (
	"context"
	"math"

	"clampline/analysis/circuit"
)

// Halving tells how far the peaks move when the step is halved: about the
// error of the longer one. A peak is that of a kind of pair, the greatest of
// its lines.
type Halving struct {
	Bus   int // that moves most
	Kind  circuit.Kind
	From  float64 // V, its peak
	To    float64 // V, by half the step
	Share float64 // by which it moves, of the peak or of smallPart of the highest of all, if that is more
}

// smallPart is below which share of the highest peak of a network a peak
// counts as small: its own error matters to nobody.
const smallPart = 0.05

// Halve solves a network by half the step of the options and compares all peaks
// with those of whole, what the step itself has led to. Errors are those of New
// and Run.
func Halve(ctx context.Context, n *circuit.Network, o Options, whole *Result) (Halving, error) {
	solver, err := New(ctx, n, Options{Step: o.Step / 2, Duration: o.Duration})
	if err != nil {
		return Halving{}, err
	}
	half, err := solver.Run(ctx)
	if err != nil {
		return Halving{}, err
	}
	return compare(n, whole, half), nil
}

func compare(n *circuit.Network, whole, half *Result) Halving {
	highest := 0.0
	for _, peaks := range half.Buses {
		for _, peak := range peaks {
			highest = max(highest, peak.Volts)
		}
	}
	var out Halving
	for i, bus := range n.Buses {
		before, after := byKind(bus, whole.Buses[i]), byKind(bus, half.Buses[i])
		for kind, to := range after {
			share := math.Abs(before[kind]-to) / max(to, smallPart*highest)
			if share > out.Share {
				out = Halving{i, circuit.Kind(kind), before[kind], to, share}
			}
		}
	}
	return out
}

// byKind returns the greatest peak of each kind of pair, 0 where there is none.
func byKind(bus circuit.Bus, peaks []Peak) (out [circuit.KindCount]float64) {
	for i, pair := range circuit.Pairs(len(bus.Conductors)) {
		kind := bus.Kind(pair)
		out[kind] = max(out[kind], peaks[i].Volts)
	}
	return out
}
