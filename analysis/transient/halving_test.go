package transient

import (
	"context"
	"errors"
	"math"
	"testing"

	"clampline/analysis/circuit"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// The peak that moves most is told, as a share of itself, or of a twentieth of
// the highest where it is less than that.
func TestCompare(t *testing.T) {
	n := &circuit.Network{}
	for _, name := range []string{"one", "other"} { // with the pairs A-G, N-G and A-N
		addBus(n, name, "AN")
	}
	result := func(volts ...float64) *Result {
		out := &Result{Buses: make([][]Peak, 2)}
		for i, v := range volts {
			out.Buses[i/3] = append(out.Buses[i/3], Peak{Volts: v})
		}
		return out
	}
	for _, row := range []struct {
		name        string
		whole, half *Result
		want        Halving
	}{
		{"nothing moves", result(1, 2, 3, 4, 5, 6), result(1, 2, 3, 4, 5, 6), Halving{}},
		{"one moves", result(100, 100, 100, 100, 98, 100), result(100, 100, 100, 100, 100, 100), Halving{1, circuit.NeutralEarth, 98, 100, 0.02}},
		{"one moves more", result(100, 103, 100, 98, 100, 100), result(100, 100, 100, 100, 100, 100), Halving{0, circuit.NeutralEarth, 103, 100, 0.03}},
		{"a small one hardly counts", result(1000, 1000, 1, 1000, 990, 1000), result(1000, 1000, 1.1, 1000, 1000, 1000), Halving{1, circuit.NeutralEarth, 990, 1000, 0.01}},
		{"a small one that moves much", result(1000, 1000, 2, 1000, 1000, 1000), result(1000, 1000, 4, 1000, 1000, 1000), Halving{0, circuit.LineNeutral, 2, 4, 0.04}},
		{"all nothing", result(0, 0, 0, 0, 0, 0), result(0, 0, 0, 0, 0, 0), Halving{}},
	} {
		if diff := cmp.Diff(row.want, compare(n, row.whole, row.half), cmpopts.EquateApprox(1e-12, 0)); diff != "" {
			t.Errorf("%s: want - got +\n%s", row.name, diff)
		}
	}
}

// Halve is what two runs of their own show, and its errors are theirs.
func TestHalve(t *testing.T) {
	n, step := random(2, false)
	o := Options{Step: step, Duration: 5 * microsec}
	whole, half := run(t, n, o), run(t, n, Options{Step: step / 2, Duration: o.Duration})
	got, err := Halve(context.Background(), n, o, whole)
	if err != nil {
		t.Fatal(err)
	}
	if want := compare(n, whole, half); got != want || want.Share == 0 {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if _, err := Halve(context.Background(), n, Options{}, whole); err == nil {
		t.Error("no step: got no error")
	}
	if _, err := Halve(&impatient{context.Background(), 0}, n, o, whole); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: got %v", err)
	}
}

// change returns the greatest difference of a peak, two results, as a
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
// small capacitance, or on a line of a few metres, has a few steps for its
// period, and halving the step again must bring it nearer: the change halves or
// better, three quarters leave room for where in a step a crest lies. Not so for
// a gap that fires and opens again and again: a time that differs leads to other
// ones. There may be a few of those.
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
		if second := change(half, solve(4)); second < max(1e-2, 0.75*first) {
			continue
		}
		if restless++; !fires(whole) {
			t.Errorf("network %d: got a change of %.3g that halving the step again does not lessen", seed, first)
		}
	}
	t.Logf("worst of %d networks: %.3g; over 1 %%: %d; not lessened: %d", networks, worst, over, restless)
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
