package transient

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
)

// change returns the greatest difference of a peak between two results, as a
// share of the greatest voltage of its bus.
func change(a, b *Result) float64 {
	worst := 0.0
	for i, peaks := range b.Buses {
		top := 1.0 // V
		for _, p := range peaks {
			top = max(top, p.Volts)
		}
		for j, p := range peaks {
			worst = max(worst, math.Abs(a.Buses[i][j].Volts-p.Volts)/top)
		}
	}
	return worst
}

// fires reports whether a gap has carried a current.
func fires(r *Result) bool {
	for _, d := range r.Gaps {
		if d.Amps > 0.1 {
			return true
		}
	}
	return false
}

// Halving the step changes no peak of a random network by 1 % of the voltage of
// its bus. Where it does, an oscillation between a lead or a short feeder and a
// small capacitance has a few steps for its period, and halving the step again
// must at least halve the change. Not so for a gap that fires and opens again
// and again: each time is a whole number of steps, and one that differs leads
// to other ones. There may be a few of those.
func TestHalvingTheStep(t *testing.T) {
	worst, over, restless := 0.0, 0, 0
	for seed := range uint64(networks) {
		n, step := random(seed, false)
		solve := func(divide float64) *Result { return run(t, n, Options{Step: step / divide, Duration: 20 * microsec}) }
		whole, half := solve(1), solve(2)
		first := change(whole, half)
		worst = max(worst, first)
		if first < 1e-2 {
			continue
		}
		over++
		if second := change(half, solve(4)); second < max(1e-2, first/2) {
			continue
		}
		if restless++; !fires(whole) {
			t.Errorf("network %d: got a change of %.3g that halving the step again does not halve", seed, first)
		}
	}
	t.Logf("worst of %d networks: %.3g; over 1 %%: %d; not halved: %d", networks, worst, over, restless)
	if over > networks/10 || restless > networks/50 {
		t.Errorf("got %d networks that change by more than 1 %% and %d that do not settle", over, restless)
	}
}

// A building has no oscillation so fast, and every peak of it, however small,
// changes by less than 1 % of itself.
func TestHalvingTheStepOfABuilding(t *testing.T) {
	for _, row := range []struct {
		name              string
		buses, protectors int
	}{{"without protectors", 30, 0}, {"few", 30, 4}, {"many", 40, 13}} {
		t.Run(row.name, func(t *testing.T) {
			n := building(row.buses, row.protectors)
			whole := run(t, n, Options{Step: 10e-9, Duration: 60 * microsec})
			half := run(t, n, Options{Step: 5e-9, Duration: 60 * microsec})
			for i, peaks := range half.Buses {
				for j, p := range peaks {
					if p.Volts < 1 { // like conductors, driven alike
						continue
					}
					pair := n.Buses[i].PairName(circuit.Pairs(4)[j])
					within(t, n.Buses[i].Name+" "+pair, whole.Buses[i][j].Volts, p.Volts, 1e-2)
				}
			}
			for i, d := range half.Varistors {
				if d.Joules > 1e-3 {
					within(t, n.Varistors[i].Name+" energy", whole.Varistors[i].Joules, d.Joules, 1e-2)
				}
			}
		})
	}
}
