package transient

import (
	"context"
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// tube is a gas tube between a node and earth.
func tube(n *circuit.Network, at circuit.Node, spark, hold float64) {
	n.Gaps = append(n.Gaps, circuit.Gap{Name: "tube", A: at, Sparkover: spark, Arc: 20, Ohms: 0.05, Hold: hold, Off: 1e9})
}

// fed returns a tube at a bus behind a source.
func fed(volts, ohms, spark, hold float64, shape waveform.Shape) *circuit.Network {
	n := &circuit.Network{}
	bus := point(n, "bus")
	drive(n, bus, volts, ohms, shape)
	tube(n, bus, spark, hold)
	return n
}

// A voltage that rises by 1 kV/µs, of either sign: the tube fires within a step
// of its sparkover and holds its arc from then on.
func TestGapFires(t *testing.T) {
	for _, slope := range []float64{1e9, -1e9} {
		t.Run(fmt.Sprintf("%g V/s", slope), func(t *testing.T) {
			const h, ohms, spark = 1e-9, 10.0, 600.0
			r := run(t, fed(slope, ohms, spark, 1, ramp()), Options{Step: h, Duration: 2 * microsec, Record: []Probe{{0, circuit.Pair{To: circuit.ToEarth}}}})
			v := r.Traces[0].Values
			fires := at(spark/math.Abs(slope), h)
			for k := range v {
				e := slope * float64(k) * h
				want := e
				if k > fires+1 {
					arc := math.Copysign(20, slope)
					want = arc + (e-arc)*0.05/(ohms+0.05)
				}
				if k != fires+1 {
					about(t, fmt.Sprintf("step %d", k), v[k], want, 1e-3)
				}
			}
			if peak := r.Buses[0][0].Volts; peak < spark || peak > spark+1.001 {
				t.Errorf("peak: got %g, want %g or at most a step more", peak, spark)
			}
			within(t, "current", r.Gaps[0].Amps, (2000-20)/(ohms+0.05), 1e-3)
		})
	}
}

// It stays open below its sparkover, where only its leakage flows.
func TestGapStaysOpen(t *testing.T) {
	r := run(t, fed(599, 10, 600, 1, step1()), Options{Step: 1e-8, Duration: 10 * microsec})
	within(t, "voltage", r.Buses[0][0].Volts, 599, 1e-5)
	within(t, "current", r.Gaps[0].Amps, 599/1e9, 1e-4)
}

// It opens when its current, having been above the holding current, falls below
// it: where the source has fallen to 20 V and the holding current's drop.
func TestGapOpens(t *testing.T) {
	for _, hold := range []float64{1, 5, 20} {
		t.Run(fmt.Sprintf("%g A", hold), func(t *testing.T) {
			const h, crest, ohms, fall = 1e-8, 1000.0, 10.0, 20 * microsec
			shape := step1()
			shape.Fall = fall
			v := waves(t, fed(crest, ohms, 600, hold, shape), h, 100*microsec)[0].Values
			opens := at(fall*math.Log(crest/(20+(ohms+0.05)*hold)), h)
			for k := 3; k < len(v); k++ {
				e := crest * math.Exp(-float64(k)*h/fall)
				want := 20 + (e-20)*0.05/(ohms+0.05)
				if k > opens+1 {
					want = e
				}
				if k < opens-1 || k > opens+2 {
					about(t, fmt.Sprintf("step %d of %d", k, opens), v[k], want, 1e-3)
				}
			}
		})
	}
}

// A current that never reaches the holding current does not end the arc.
func TestGapThatNeverHeld(t *testing.T) {
	v := waves(t, fed(610, 1000, 600, 1, step1()), 1e-8, 10*microsec)[0].Values
	within(t, "arc", v[len(v)-1], 20, 2e-3)
}

// What charges again fires again.
func TestGapFiresAgain(t *testing.T) {
	n := fed(1000, 1000, 600, 5, step1())
	store(n, 1, circuit.Earth, 10e-9, 0)
	v := waves(t, n, 1e-8, 60*microsec)[0].Values
	fired := 0
	for k := 1; k < len(v); k++ {
		if v[k-1] > 590 && v[k] < 100 {
			fired++
		}
	}
	// 10 µs to charge to 600 of 1000 V: e^-x = 0.4, from 20 V a little less.
	if want := 6; fired != want {
		t.Errorf("got it to fire %d times, want %d", fired, want)
	}
}

// A step that follows a jump is made of two halves by the backward Euler rule.
// The trapezoidal rule alone would carry the jump on as a swing from step to
// step, which this test provokes to see that it can tell.
func TestNoRingingAfterAJump(t *testing.T) {
	for _, row := range []struct {
		name         string
		put          func() *circuit.Network
		wanted       func(time float64) float64 // V, after the jump
		jumped       func(l *limiter, before bool) bool
		calm, ringed float64 // V at most with the halves, at least without
	}{
		{"firing across a capacitor", fullCapacitor, func(float64) float64 { return 20 },
			func(l *limiter, before bool) bool { return before || l.fired }, 0.1, 30},
		{"opening behind an inductor", fullInductor, func(time float64) float64 { return kilo * math.Exp(-time/(20*microsec)) },
			func(l *limiter, before bool) bool { return before || l.held && !l.fired }, 0.5, 30},
		{"a diode that blocks behind an inductor", turningInductor, func(time float64) float64 { return turning.At(time) * kilo },
			diodeBlocked, 0.5, 30},
	} {
		t.Run(row.name, func(t *testing.T) {
			beside := func(halves bool) (most float64) {
				const h, duration = 1e-8, 70 * microsec
				s, err := New(context.Background(), row.put(), Options{Step: h, Duration: duration})
				if err != nil {
					t.Fatal(err)
				}
				s.extend(s.steps)
				c, jumped, since := s.clusters[0], false, 0
				for k := 1; k <= s.steps; k++ {
					c.restart = c.restart && (halves || k == 1)
					if !c.alone(k) {
						t.Fatal("no solution")
					}
					if jumped = row.jumped(&c.limiters[0], jumped); jumped {
						since++
					}
					if since > 2 { // the first ends with the jump, the second follows it
						most = max(most, math.Abs(c.v[c.n-1]-row.wanted(float64(k)*h)))
					}
				}
				if since == 0 {
					t.Fatal("nothing has jumped")
				}
				return most
			}
			if got := beside(true); got > row.calm {
				t.Errorf("got up to %.3g V beside what must be, want at most %g", got, row.calm)
			}
			if got := beside(false); got < row.ringed {
				t.Errorf("got up to %.3g V without the halves, want at least %g: this test would not see ringing", got, row.ringed)
			}
		})
	}
}

// fullCapacitor is a tube that fires across a capacitor with nothing between.
func fullCapacitor() *circuit.Network {
	n := fed(2000, 100, 600, 1, step1())
	n.Gaps[0].Ohms = 1e-5
	store(n, 1, circuit.Earth, 100e-9, 0)
	return n
}

// fullInductor is a tube that opens while an inductor in front of it carries 5 A, which
// without the halves fires it again at once.
func fullInductor() *circuit.Network {
	n := &circuit.Network{}
	from, bus := n.AddNode("from"), point(n, "bus")
	shape := step1()
	shape.Fall = 20 * microsec
	drive(n, from, kilo, 10, shape)
	wind(n, from, bus, 10e-6, 0)
	n.Gaps = append(n.Gaps, circuit.Gap{Name: "tube", A: bus, Sparkover: 600, Arc: 20, Ohms: 0.05, Hold: 5, Off: 1e9})
	return n
}

func diodeBlocked(l *limiter, before bool) bool { return before || l.piece == blocks }

// turning falls for 50 µs and is negative from then on.
var turning = waveform.Shape{Form: waveform.Ringing, Scale: 1, Rise: 1e-12, Fall: 1e9, Frequency: 5e3}

// turningInductor is a diode that ends the current of an inductor in front of it,
// when some 300 V stand across that.
func turningInductor() *circuit.Network {
	n := &circuit.Network{}
	from, bus := n.AddNode("from"), point(n, "bus")
	drive(n, from, kilo, 10, turning)
	wind(n, from, bus, 100e-6, 0)
	valve(n, bus, circuit.Earth)
	return n
}

// A current that passes through nothing between two steps has been below the
// holding current, however fast: the gap opens there, and fires again when the
// voltage of the other sign has come to its sparkover.
func TestGapOpensWhereItsCurrentTurns(t *testing.T) {
	for _, hold := range []float64{0.1, 1, 10} {
		t.Run(fmt.Sprintf("%g A", hold), func(t *testing.T) {
			const h, crest, spark, period = 1e-8, 30 * kilo, 2000.0, 10.02 * microsec // 190 A in a step, half of it before zero
			shape := waveform.Shape{Form: waveform.Ringing, Scale: 1, Rise: 1e-12, Fall: 1e9, Frequency: 1 / period}
			v := waves(t, fed(crest, 1, spark, hold, shape), h, 30*microsec)[0].Values
			for k := 2; k < len(v); k++ {
				e := crest * math.Cos(2*math.Pi*float64(k)*h/period)
				turned := math.Abs(math.Mod(float64(k)*h/period+0.25, 0.5)) * period // s since the voltage was zero
				if turned > 3*h && math.Abs(e) < spark-1 && turned < period/8 {
					about(t, fmt.Sprintf("step %d, open", k), v[k], e, 1e-3)
				}
			}
		})
	}
}
