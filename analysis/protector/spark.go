package protector

import (
	"context"
	"math"

	"clampline/analysis/circuit"
	"clampline/analysis/transient"
)

// waves returns the voltages at the ends of the leads and across the gap.
func (l *listing) waves(ctx context.Context, step float64) (outer, inner []float64, err error) {
	o := transient.Options{Step: step, Duration: testTime, Record: []transient.Probe{{Bus: 0, Pair: l.outer}, {Bus: 1, Pair: circuit.Pair{From: 0, To: 1}}}}
	result, err := solve(ctx, l.network, o)
	if err != nil {
		return nil, nil, err
	}
	return result.Traces[0].Values, result.Traces[1].Values, nil
}

// neverVolts is a spark voltage that no test comes to, V.
const neverVolts = 1e9

// sparkFor returns the voltage across the gap when that at the ends of the
// leads reaches a level, and false if it never does. The gap does not fire in
// this network any more.
func (l *listing) sparkFor(ctx context.Context, level float64) (float64, bool, error) {
	l.network.Gaps[l.gap].Sparkover = neverVolts
	outer, inner, err := l.waves(ctx, fineStep)
	if err != nil {
		return 0, false, err
	}
	for k := 1; k < len(outer); k++ {
		if math.Abs(outer[k]) >= level {
			return math.Abs(between(outer[k-1], outer[k], math.Copysign(level, outer[k]), inner[k-1], inner[k])), true, nil
		}
	}
	return 0, false, nil
}

// between returns y where x goes from x0 to x1 and y from y0 to y1, in
// proportion.
func between(x0, x1, x, y0, y1 float64) float64 { return y0 + (y1-y0)*(x-x0)/(x1-x0) }
