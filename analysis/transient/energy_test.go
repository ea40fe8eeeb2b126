package transient

import (
	"context"
	"math"
	"testing"

	"clampline/analysis/circuit"
)

// networks is how many random networks the properties are tried on.
const networks = 200

// What is delivered is lost or stored. A balance may lack 0.5 % before a result
// is not to be believed; the sums over steps are far better than that.
func TestEnergyBalance(t *testing.T) {
	worst := 0.0
	for seed := range uint64(networks) {
		n, step := random(seed, false)
		r := run(t, n, Options{Step: step, Duration: 20 * microsec})
		if !(r.Energy.Delivered > 0) {
			t.Errorf("network %d: got %g J delivered", seed, r.Energy.Delivered)
		}
		if e := r.Energy.Error(); !(e < 5e-3) {
			t.Errorf("network %d: got a balance wrong by %.3g of %+v", seed, e, r.Energy)
		}
		worst = max(worst, r.Energy.Error())
	}
	t.Logf("worst of %d networks: %.3g", networks, worst)
}

// The balance sees what is not right: a solver of which one thing is spoiled
// while it runs. Each makes or loses energy that no element accounts for.
func TestEnergyBalanceSeesWhatIsWrong(t *testing.T) {
	for _, row := range []struct {
		name  string
		spoil func(s *Solver, k int)
	}{
		{"voltages that do not solve a cluster", func(s *Solver, k int) {
			switch k {
			case 500:
				scale(s.clusters[0].fused.sum.values, 1.02)
			case 510:
				scale(s.clusters[0].fused.sum.values, 1/1.02)
			}
		}},
		{"a wave on its way lost", func(s *Solver, k int) {
			if k == 1000 {
				clear(s.lines[0].a.own.waves)
			}
		}},
		{"the current of an inductor halved", func(s *Solver, k int) {
			if k == 1000 {
				for _, l := range elements(s.clusters[0]).inductors {
					scale(l.coming, 0.5)
				}
			}
		}},
		{"a capacitor emptied by a tenth", func(s *Solver, k int) {
			if k == 1000 {
				for _, m := range elements(s.clusters[0]).memory {
					if m, ok := m.(*capacitance); ok {
						scale(m.coming, 0.9)
					}
				}
			}
		}},
		{"heat of the first cluster not counted", func(s *Solver, k int) { s.clusters[0].sums.lost = 0 }},
	} {
		t.Run(row.name, func(t *testing.T) {
			if e := spoiled(t, func(*Solver, int) {}); e > 1e-3 {
				t.Fatalf("got a balance wrong by %.3g with nothing spoiled", e)
			}
			if e := spoiled(t, row.spoil); e < 5e-3 {
				t.Errorf("got a balance wrong by only %.3g", e)
			}
		})
	}
}

// elements has the elements of a cluster know what they are.
func elements(c *cluster) *cluster {
	if f := c.fused; f != nil && f.steps > 0 {
		f.tell(c, f.in[f.lin:], c.v)
		f.steps = 0
	}
	return c
}

func scale(values []float64, by float64) {
	for i := range values {
		values[i] *= by
	}
}

// spoiled returns the error of the balance of a small building that is spoiled
// after each step.
func spoiled(t *testing.T, spoil func(s *Solver, k int)) float64 {
	t.Helper()
	s, err := New(context.Background(), building(5, 1), Options{Step: 1e-8, Duration: 20 * microsec})
	if err != nil {
		t.Fatal(err)
	}
	s.extend(s.steps)
	for k := 1; k <= s.steps; k++ {
		for _, c := range s.clusters {
			if !c.alone(k) {
				t.Fatal("no solution")
			}
		}
		spoil(s, k)
	}
	return s.result().Energy.Error()
}

// What the balance lacks is told whatever the sign, and a balance that is no
// number is not a good one.
func TestErrorOfABalance(t *testing.T) {
	for _, row := range []struct {
		name string
		e    Energy
		want float64
	}{
		{"even", Energy{Delivered: 10, Lost: 7, Stored: 3}, 0},
		{"short", Energy{Delivered: 10, Lost: 6, Stored: 3}, 0.1},
		{"over", Energy{Delivered: 10, Lost: 8, Stored: 4}, 0.2},
		{"taken back in part", Energy{Delivered: 10, Returned: 4, Lost: 6}, 0},
		{"nothing at all", Energy{}, 0},
	} {
		about(t, row.name, row.e.Error(), row.want, exact)
	}
	for name, e := range map[string]Energy{
		"heat out of nothing":    {Lost: 5},
		"less than nothing":      {Delivered: -1, Lost: 5},
		"taken back and kept":    {Delivered: -5, Lost: 0, Stored: 1},
		"stored, none delivered": {Stored: 1e-3},
		"no number delivered":    {Delivered: math.NaN()},
		"no number lost":         {Delivered: 1, Lost: math.NaN()},
	} {
		if got := e.Error(); !(got > 5e-3) {
			t.Errorf("%s: got %g for %+v", name, got, e)
		}
	}
}

// A bus of which only the insulation takes current: the little that is
// delivered is accounted for.
func TestEnergyOfInsulation(t *testing.T) {
	n := &circuit.Network{}
	drive(n, point(n, "bus"), 6*kilo, 30, step1())
	r := run(t, n, Options{Step: 1e-8, Duration: 100 * microsec})
	within(t, "delivered", r.Energy.Delivered, 36e6/1e8*100*microsec, 1e-3)
	if e := r.Energy.Error(); !(e < 5e-3) {
		t.Errorf("got a balance wrong by %.3g of %+v", e, r.Energy)
	}
}
