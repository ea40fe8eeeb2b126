package spice

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// TestVaristor drives 3 kA 8/20 through a disc from a source that is nearly
// one of current. What is wanted follows from the fit of its curve and the
// formula of the wave.
func TestVaristor(t *testing.T) {
	const ohms, crest = 1e3, 0.99957 // of the formula with its rounded constants
	for _, turned := range []bool{false, true} {
		b := newBench()
		bus := b.bus("panel", "A")[0]
		b.source(bus, circuit.Earth, 3e3*ohms/crest, ohms, waveform.Current8x20())
		v := circuit.Varistor{Name: "disc", A: bus, Curve: disc("20 mm 130", 60)}
		if turned {
			v.A, v.B = v.B, v.A
		}
		b.Varistors = []circuit.Varistor{v}
		found := simulate(t, b.Network, 50e-9, 100e-6)
		near(t, found, "peak_lg_panel", 451.3, 2e-3) // straight pieces stand for the fit; the source loses 0.02 %
		near(t, found, "amps_disc", 3e3, 1e-3)
		near(t, found, "charge_disc", 17.45e-6*3e3/crest, 2e-3) // integral of the formula, told to four digits
		near(t, found, "energy_disc", 21.93, 5e-3)
	}
}

// TestVaristorBeyondCurve wants the last piece to go on.
func TestVaristorBeyondCurve(t *testing.T) {
	b := newBench()
	bus := b.bus("panel", "A")[0]
	b.source(bus, circuit.Earth, 400, 1, step())
	b.Varistors = []circuit.Varistor{{Name: "v", A: bus, Curve: &circuit.Curve{Name: "c", Volts: []float64{0, 100, 110}, Amps: []float64{0, 1e-3, 10}}}}
	want := b.Varistors[0].Curve
	found := simulate(t, b.Network, 1e-9, 100e-9)
	got := found["peak_lg_panel"]
	if math.Abs(want.Current(got)-(400-got)) > 0.1 || got < 150 { // A, of 200
		t.Errorf("got %g V with %g A by the curve and %g A by the source", got, want.Current(got), 400-got)
	}
}

// ramp is a voltage that goes to its end within some microseconds.
func ramp(fall float64) waveform.Shape {
	return waveform.Shape{Name: "ramp", Form: waveform.Exponential, Scale: 1, Rise: 1e-6, Fall: fall}
}

// TestGap compares with what follows from the definition of a gap where the
// source and a resistor alone set the current.
func TestGap(t *testing.T) {
	const (
		ohms, arc, arcOhms = 10.0, 20.0, 0.01
		spark, hold        = 800.0, 50.0
		end, fall          = 20e-6, 10e-6
	)
	tests := []struct {
		name        string
		volts, fall float64
		henries     float64 // in series with the gap
		hold        float64
		fires       bool
	}{
		{"below sparkover", 790, 1, 0, hold, false},
		{"fires and holds", 2000, 1, 0, hold, true},
		{"the other way", -2000, 1, 0, hold, true},
		{"behind a lead", 2000, 1, 1e-9, hold, true},
		{"opens", 2000, fall, 0, hold, true},
		{"stays fired", 2000, fall, 0, 0, true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			b := newBench()
			bus, inner := b.bus("panel", "N")[0], circuit.Node(0)
			inner = bus
			if test.henries > 0 {
				inner = b.AddNode("inner")
				b.Inductors = []circuit.Inductor{{Name: "lead", Branches: []circuit.Branch{{A: bus, B: inner}}, Henries: []float64{test.henries}, Ohms: []float64{0}}}
			}
			b.source(bus, circuit.Earth, test.volts, ohms, ramp(test.fall))
			b.Gaps = []circuit.Gap{{Name: "gap", A: inner, Sparkover: spark, Arc: arc, Ohms: arcOhms, Hold: test.hold, Off: 1e9}}
			found := simulate(t, b.Network, 10e-9, end)
			if !test.fires {
				near(t, found, "peak_ng_panel", math.Abs(test.volts), 1e-3)
				if got := found["amps_gap"]; got > 1e-3 {
					t.Errorf("got %g A, want none", got)
				}
				return
			}
			amps, charge, energy := arcDuty(math.Abs(test.volts), ramp(test.fall), ohms+arcOhms, arc, arcOhms, spark, test.hold, end)
			near(t, found, "peak_ng_panel", spark, 0.01) // it fires within a step, in which the voltage goes on rising
			near(t, found, "amps_gap", amps, 2e-3)
			near(t, found, "charge_gap", charge, 5e-3) // the time of firing is known to a step
			near(t, found, "energy_gap", energy, 5e-3)
		})
	}
}

// arcDuty integrates the current of a source through the arc, from sparkover to
// when it is no longer held.
func arcDuty(volts float64, shape waveform.Shape, ohms, arc, arcOhms, spark, hold, end float64) (amps, charge, energy float64) {
	const h = 1e-10
	fired := false
	for t := 0.0; t < end; t += h {
		v := volts * shape.At(t)
		fired = fired || v >= spark
		if !fired {
			continue
		}
		i := (v - arc) / ohms
		if i < hold {
			break
		}
		amps = max(amps, i)
		charge += i * h
		energy += (arc + arcOhms*i) * i * h
	}
	return amps, charge, energy
}

// TestGapHolds begins with a current below the holding current, which an
// inductance lets rise only slowly: the gap must not open before it has been
// held at all.
func TestGapHolds(t *testing.T) {
	b := newBench()
	bus := b.bus("panel", "N")[0]
	inner := b.AddNode("inner")
	b.Inductors = []circuit.Inductor{{Name: "lead", Branches: []circuit.Branch{{A: bus, B: inner}}, Henries: []float64{100e-6}, Ohms: []float64{0}}}
	b.source(bus, circuit.Earth, 1000, 10, step())
	b.Gaps = []circuit.Gap{{Name: "gap", A: inner, Sparkover: 800, Arc: 20, Ohms: 0.01, Hold: 50, Off: 1e6}}
	found := simulate(t, b.Network, 10e-9, 100e-6)
	near(t, found, "amps_gap", 98, 5e-3) // 980 V over 10 ohm after ten time constants of 10 us
}
