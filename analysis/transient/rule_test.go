package transient

import (
	"context"
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// rule is a way to take a step.
type rule struct {
	name   string
	halves bool // two half steps of the backward Euler rule; else one of the trapezoidal
	asRun  bool // halves also where a run takes them: after a jump, and at first
}

func rules() []rule {
	return []rule{{name: "trapezoidal"}, {name: "backward Euler", halves: true}}
}

// under solves a network with every step taken by one rule, and returns the
// voltages of the first conductors of the buses.
func under(t *testing.T, r rule, n *circuit.Network, h float64, steps int) [][]float64 {
	t.Helper()
	s, err := New(context.Background(), n, Options{Step: h, Duration: float64(steps) * h, Record: toEarth(n)})
	if err != nil {
		t.Fatal(err)
	}
	s.extend(steps)
	for k := 1; k <= steps; k++ {
		for _, c := range s.clusters {
			c.restart = r.halves || r.asRun && c.restart
			if !c.alone(k) {
				t.Fatalf("%s: no solution in step %d", c.name, k)
			}
		}
	}
	var out [][]float64
	for _, trace := range s.traces {
		out = append(out, trace.values)
	}
	return out
}

// settling is the discrete closed form of x' = (u - x)/tau with x = 0 at first:
// for a jump of u after the time 0, and each for a ramp of u by one in a step.
// With r = h/2tau a trapezoidal step is x (1+r) = x' (1-r) + r (u + u'), and
// half a step backward Euler x (1+r) = x' + r u.
func (r rule) settling(h, tau float64, u func(time float64) float64, steps int) []float64 {
	out := make([]float64, steps+1)
	share := h / (2 * tau)
	for k := 1; k <= steps; k++ {
		from, end := float64(k-1)*h, float64(k)*h
		if r.halves {
			middle := (out[k-1] + share*u(from+h/2)) / (1 + share)
			out[k] = (middle + share*u(end)) / (1 + share)
		} else {
			out[k] = (out[k-1]*(1-share) + share*(u(from)+u(end))) / (1 + share)
		}
	}
	return out
}

// The recurrence above is held against the closed form of a jump under each
// rule: x = 1 - a^(k-1)/(1+r) with a = (1-r)/(1+r), and x = 1 - (1+r)^-2k.
func TestSettlingIsItsClosedForm(t *testing.T) {
	const h, tau, steps = 1.0, 3.0, 20
	for _, r := range rules() {
		got := r.settling(h, tau, jump, steps)
		for k := 1; k <= steps; k++ {
			share := h / (2 * tau)
			want := 1 - math.Pow((1-share)/(1+share), float64(k-1))/(1+share)
			if r.halves {
				want = 1 - math.Pow(1+share, float64(-2*k))
			}
			about(t, fmt.Sprintf("%s, step %d", r.name, k), got[k], want, 1e-14)
		}
	}
}

func jump(time float64) float64 {
	if time > 0 {
		return 1
	}
	return 0
}

// One model between a source and a resistance, with steps so long that a rule
// cannot be taken for the other. What is asked for is the share of the voltage
// at last, and the time in which it settles.
func TestModelsKeepTheRule(t *testing.T) {
	const h, steps, volts = 1e-6, 40, 100.0
	for _, model := range []struct {
		name      string
		put       func(n *circuit.Network, at circuit.Node)
		tau       float64
		from, end float64 // V at once and at last
	}{
		// 50 ohm and 40 nF: 2 µs.
		{"capacitor", func(n *circuit.Network, at circuit.Node) { store(n, at, circuit.Earth, 40e-9, 0) }, 2e-6, 0, volts},
		// 100 µH over 50 ohm: 2 µs, from the whole voltage to none.
		{"inductor", func(n *circuit.Network, at circuit.Node) { wind(n, at, circuit.Earth, 100e-6, 0) }, 2e-6, volts, 0},
		// 100 µH over 50 and 25 ohm, to a third.
		{"inductor with resistance", func(n *circuit.Network, at circuit.Node) { wind(n, at, circuit.Earth, 100e-6, 25) }, 100e-6 / 75, volts, volts / 3},
		// 40 and 40 µH in parallel with 10 µH between them: 25 µH in all.
		{"coupled inductors", coupledPair, 25e-6 / 50, volts, 0},
		// 8 µH behind 4 : 1 are 128 µH before it.
		{"winding", func(n *circuit.Network, at circuit.Node) { shortedWinding(n, at, 4, 8e-6, 0) }, 128e-6 / 50, volts, 0},
		// 8 µH and 2 ohm behind 5 : 1 are 200 µH and 50 ohm before it.
		{"winding with resistance", func(n *circuit.Network, at circuit.Node) { shortedWinding(n, at, 5, 8e-6, 2) }, 200e-6 / 100, volts, volts / 2},
	} {
		for _, r := range rules() {
			t.Run(model.name+", "+r.name, func(t *testing.T) {
				n := &circuit.Network{}
				node := point(n, "bus")
				drive(n, node, volts, 50, step1())
				model.put(n, node)
				got := under(t, r, n, h, steps)[0]
				settled := r.settling(h, model.tau, jump, steps)
				for k := 1; k <= steps; k++ {
					want := model.from + (model.end-model.from)*settled[k]
					about(t, fmt.Sprintf("step %d", k), got[k], want, volts*1e-6) // insulation: 50 ohm of 1e8
				}
			})
		}
	}
}

// coupledPair puts two inductors of 40 µH with 10 µH between them side by side.
func coupledPair(n *circuit.Network, at circuit.Node) {
	n.Inductors = append(n.Inductors, circuit.Inductor{
		Name: "pair", Branches: []circuit.Branch{{A: at}, {A: at}},
		Henries: []float64{40e-6, 10e-6, 10e-6, 40e-6}, Ohms: []float64{0, 0},
	})
}

// shortedWinding puts the primary of a transformer on the node and shorts its
// secondary.
func shortedWinding(n *circuit.Network, at circuit.Node, ratio, henries, ohms float64) {
	n.Windings = append(n.Windings, circuit.Winding{
		Name: "winding", P: circuit.Branch{A: at}, S: circuit.Branch{}, Ratio: ratio, Henries: henries, Ohms: ohms,
	})
}

// A wave that arrives by a line, at a time that is no whole number of half
// steps, and charges a capacitor: both rules take it from the right time. It
// rises so evenly that what a line does between steps does not show.
func TestLinesKeepTheRule(t *testing.T) {
	const h, steps, z, farads, volts = 1e-6, 80, 100.0, 30e-9, 100.0
	shape := waveform.Shape{Form: waveform.Heidler, Scale: 1, Rise: 40e-6, Fall: 1}
	for _, delay := range []float64{5 * h, 5.2 * h, 5.5 * h, 5.8 * h, 8.9 * h, 9 * h, 9.1 * h} {
		for _, r := range rules() {
			t.Run(fmt.Sprintf("%.1f steps, %s", delay/h, r.name), func(t *testing.T) {
				n := &circuit.Network{}
				from, end := n.AddNode("from"), point(n, "end")
				drive(n, from, volts, z, shape)
				join(n, from, end, z, delay)
				store(n, end, circuit.Earth, farads, 0)
				got := under(t, r, n, h, steps)[0]
				want := r.settling(h, z*farads, func(time float64) float64 { return volts * shape.At(time-delay) }, steps)
				for k := range want {
					about(t, fmt.Sprintf("step %d", k), got[k], want[k], 1e-3*volts)
				}
			})
		}
	}
}

// Sources are asked at the middle of a step where it has two halves.
func TestSourcesKeepTheRule(t *testing.T) {
	const h, steps, tau, slope = 1e-6, 20, 2e-6, 1e9
	for _, r := range rules() {
		t.Run(r.name, func(t *testing.T) {
			n := &circuit.Network{}
			node := point(n, "bus")
			drive(n, node, slope, 50, ramp())
			store(n, node, circuit.Earth, tau/50, 0)
			got := under(t, r, n, h, steps)[0]
			want := r.settling(h, tau, func(time float64) float64 { return slope * time }, steps)
			for k := range want {
				about(t, fmt.Sprintf("step %d", k), got[k], want[k], 1e-6*want[steps])
			}
		})
	}
}

// The trapezoidal rule's error falls with the square of the step, that of the
// backward Euler rule with the step.
func TestOrderOfTheRules(t *testing.T) {
	const tau, end = 2e-6, 4e-6
	wrong := func(r rule, steps int) float64 {
		n := &circuit.Network{}
		node := point(n, "bus")
		drive(n, node, 1e6, 50, ramp())
		store(n, node, circuit.Earth, tau/50, 0)
		v := under(t, r, n, end/float64(steps), steps)[0]
		// x = t - tau (1 - e^(-t/tau))
		return math.Abs(v[steps] - 1e6*(end-tau*(1-math.Exp(-end/tau))))
	}
	for _, row := range []struct {
		rule rule
		want float64
	}{{rules()[0], 4}, {rules()[1], 2}} {
		within(t, row.rule.name+": error of a step over that of half of it", wrong(row.rule, 20)/wrong(row.rule, 40), row.want, 0.05)
	}
}

// alone takes step k by itself.
func (c *cluster) alone(k int) bool { return c.run(k-1, k) == 0 }
