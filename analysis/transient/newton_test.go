package transient

import (
	"context"
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// fine returns a power law of so many pieces, each as wide as the others.
func fine(volts, amps, alpha float64, pieces int) *circuit.Curve {
	c := &circuit.Curve{Name: fmt.Sprintf("%d pieces", pieces)}
	for i := range pieces + 1 {
		v := 2 * volts * float64(i) / float64(pieces)
		c.Volts = append(c.Volts, v)
		c.Amps = append(c.Amps, max(amps*math.Pow(v/volts, alpha), 1e-9*v))
	}
	return c
}

// balanced returns the voltage between two bounds at which a falling function
// is nothing.
func balanced(low, high float64, f func(volts float64) float64) float64 {
	for range 200 {
		if middle := (low + high) / 2; f(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// One protector on a step so high that its voltage passes more pieces in one
// step than all rounds could one after the other: the cut rounds find it.
func TestCutRoundsFindTheSolution(t *testing.T) {
	for _, row := range []struct {
		alpha  float64
		pieces int
	}{{1, 5000}, {5, 8000}, {25, 8000}, {50, 20000}} {
		t.Run(fmt.Sprintf("power %g in %d pieces", row.alpha, row.pieces), func(t *testing.T) {
			const volts, ohms, h = 10 * kilo, 2.0, 1e-8
			curve := fine(400, 3000, row.alpha, row.pieces)
			n := &circuit.Network{}
			bus := point(n, "bus")
			drive(n, bus, volts, ohms, step1())
			limit(n, bus, curve)
			s, err := New(context.Background(), n, Options{Step: h, Duration: h})
			if err != nil {
				t.Fatal(err)
			}
			s.extend(1)
			c := s.clusters[0]
			if !c.alone(1) {
				t.Fatal("got no solution")
			}
			if piece := c.limiters[0].piece; piece <= stride*(plainRounds+cutRounds) {
				t.Fatalf("got piece %d, which is reached without a cut", piece)
			}
			within(t, "voltage", c.v[0], balanced(0, volts, func(v float64) float64 { return (volts-v)/ohms - v/1e8 - curve.Current(v) }), exact)
		})
	}
}

// A curve that is steep at first and flat farther out sends Newton's method to
// and fro: from beyond the bend on one side, the flat piece leads beyond that on
// the other. The cut rounds end that.
func TestCutRoundsEndACycle(t *testing.T) {
	const h, ohms, volts, fall = 1e-8, 1.0, kilo, 0.5e-8
	curve := &circuit.Curve{Name: "flat", Volts: []float64{0, 10, 10 * kilo}, Amps: []float64{0, 100, 100.1}}
	n := &circuit.Network{}
	bus := point(n, "bus")
	shape := step1()
	shape.Fall = fall
	drive(n, bus, volts, ohms, shape)
	limit(n, bus, curve)
	v := waves(t, n, h, 10*h)[0].Values
	for k := 1; k < len(v); k++ {
		e := volts * math.Exp(-float64(k)*h/fall)
		want := balanced(-volts, volts, func(v float64) float64 { return (e-v)/ohms - v/1e8 - curve.Current(v) })
		about(t, fmt.Sprintf("step %d", k), v[k], want, exact*volts)
	}
}

// Two protectors of one cluster with a resistance between them, of any two
// curves, under a surge that turns its sign.
func TestTwoProtectorsInOneCluster(t *testing.T) {
	curves := []*circuit.Curve{clamp(300), clamp(1), fine(400, 3000, 25, 50), fine(400, 3000, 50, 3000), disc150().curve(10), power("40 kV", 40*kilo, kilo, 30, 0.1)}
	const h, volts, ohms, between = 50e-9, 20 * kilo, 5.0, 0.1
	for _, first := range curves {
		for _, second := range curves {
			t.Run(first.Name+" and "+second.Name, func(t *testing.T) {
				n := &circuit.Network{}
				a, b := point(n, "first"), point(n, "second")
				drive(n, a, volts, ohms, waveform.Ring100kHz())
				limit(n, a, first)
				resist(n, a, b, between)
				limit(n, b, second)
				w := waves(t, n, h, 20*microsec)
				for k := 1; k < len(w[0].Values); k++ {
					e := volts * waveform.Ring100kHz().At(float64(k)*h)
					onward := func(v float64) float64 { return (e-v)/ohms - v/1e8 - first.Current(v) }
					want := balanced(-2*volts, 2*volts, func(v float64) float64 {
						on := v - between*onward(v)
						return onward(v) - on/1e8 - second.Current(on)
					})
					about(t, fmt.Sprintf("step %d, first", k), w[0].Values[k], want, 1e-3)
					about(t, fmt.Sprintf("step %d, second", k), w[1].Values[k], want-between*onward(want), 1e-2)
				}
			})
		}
	}
}

// However steep a curve is, its current is what the source drives through it,
// and turns with it.
func TestSteepCurves(t *testing.T) {
	for _, siemens := range []float64{1e3, 1e6, 1e9} {
		t.Run(fmt.Sprintf("%g S", siemens), func(t *testing.T) {
			const h, ohms, volts = 20e-9, 30.0, 6 * kilo
			curve := &circuit.Curve{Name: "steep", Volts: []float64{0, 400, 400 + 1000/siemens}, Amps: []float64{0, 1e-6, 1000}}
			n := &circuit.Network{}
			bus := point(n, "bus")
			drive(n, bus, volts, ohms, waveform.Ring100kHz())
			limit(n, bus, curve)
			v := waves(t, n, h, 20*microsec)[0].Values
			for k := 1; k < len(v); k++ {
				e := volts * waveform.Ring100kHz().At(float64(k)*h)
				about(t, fmt.Sprintf("current in step %d", k), curve.Current(v[k]), (e-v[k])/ohms, 1)
			}
		})
	}
}

// In late rounds a voltage may slip by a ten millionth beyond its piece, and no more.
func TestNearby(t *testing.T) {
	c := &cluster{non: 2, limiters: []limiter{{a: 0, b: 1, low: -20, high: 10}}}
	for v, want := range map[float64]bool{
		0: true, 10: true, 10 * (1 + 0.5e-7): true, 10 * (1 + 3e-7): false, -20: true, -20 * (1 + 0.5e-7): true, -20 * (1 + 3e-7): false, 1e9: false,
	} {
		c.newton.v = []float64{v + 5, 5}
		if got := c.nearby(); got != want {
			t.Errorf("%.9g V: got %t", v, got)
		}
	}
	c.newton.v = []float64{math.NaN(), 5}
	if c.nearby() {
		t.Error("what is no number is near")
	}
}

// The work along the way is what the conductances take less what is driven in: it
// turns at the solution.
func TestSlopeTurnsAtTheSolution(t *testing.T) {
	c := &cluster{non: 2, red: []float64{2, -1, -1, 3}}
	c.newton.want = []float64{1, 4}                                 // the solution is 7/5 and 9/5
	c.newton.old, c.newton.v = []float64{0, 0}, []float64{2.8, 3.6} // twice as far
	if at := c.slope(0.5); math.Abs(at) > 1e-12 {
		t.Errorf("half way there is a slope of %g left", at)
	}
	if before, after := c.slope(0.4), c.slope(0.6); before >= 0 || after <= 0 {
		t.Errorf("before and after: %g and %g", before, after)
	}
}

// No voltages are taken over that are no numbers.
func TestAcceptRefusesNoNumbers(t *testing.T) {
	for _, wrong := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		c := &cluster{lin: 0, non: 2, v: []float64{7, 8}}
		c.newton.v = []float64{1, wrong}
		if c.acceptLimited() {
			t.Errorf("%g was taken", wrong)
		}
	}
	c := &cluster{lin: 1, non: 1, v: []float64{7, 8}}
	c.newton.v = []float64{2}
	if !c.acceptLimited() || c.v[0] != 7 || c.v[1] != 2 {
		t.Errorf("got %v", c.v)
	}
}
