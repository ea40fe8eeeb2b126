package protector

import (
	"context"
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/conductor"
	"clampline/analysis/transient"
	"clampline/analysis/waveform"
)

// ring is one of the tubes into which a round wire is thought cut: its resistance,
// ohm/m, and the inductance between it and the tube outside it, H/m.
type ring struct{ ohms, henries float64 }

// rings is the ladder of Yen, Fazarinc and Wang, Time-domain skin-effect model for
// transient analysis of lossy transmission lines, Proceedings of the IEEE 70(7), 1982
// (from memory), outermost tube first and finer to the surface.
func rings(area float64) []ring {
	const count = 40
	radius := math.Sqrt(area / math.Pi)
	edge := func(k int) float64 { return radius * (1 - math.Pow(float64(k)/count, 1.7)) }
	out, last := make([]ring, count), radius
	for k := range out {
		outer, inner := edge(k), edge(k+1)
		middle := (outer + inner) / 2
		out[k] = ring{conductor.Copper / (math.Pi * (outer*outer - inner*inner)), perMetre * math.Log(last/middle)}
		last = middle
	}
	return out
}

// The ladder has the impedance of a round wire at any frequency: rho q I0(qa) / (2 pi a
// I1(qa)) ohm/m with q² = jωµ/rho (textbook; Bessel's functions by their series).
func TestRingsAreARoundWire(t *testing.T) {
	for _, area := range []float64{2.5e-6, 33.6e-6, 240e-6} {
		for _, tone := range []float64{50, 714, 5e3, 25e3} {
			omega := complex(0, 2*math.Pi*tone)
			var z complex128
			all := rings(area)
			for k := len(all) - 1; k >= 0; k-- {
				y := complex(1/all[k].ohms, 0)
				if z != 0 {
					y += 1 / z
				}
				z = omega*complex(all[k].henries, 0) + 1/y
			}
			a := complex(math.Sqrt(area/math.Pi), 0)
			q := cmplx.Sqrt(omega * complex(2*math.Pi*perMetre/conductor.Copper, 0))
			x := q * a / 2
			term0, term1 := complex(1, 0), x
			i0, i1 := term0, term1
			for k := 1; k < 200; k++ {
				term0 *= x * x / complex(float64(k*k), 0)
				term1 *= x * x / complex(float64(k*(k+1)), 0)
				i0, i1 = i0+term0, i1+term1
			}
			want := complex(conductor.Copper, 0) * q * i0 / (2 * math.Pi * a * i1)
			if off := cmplx.Abs(z-want) / cmplx.Abs(want); !(off < 0.02) { // 40 rings
				t.Errorf("%g mm², %g Hz: got %g, want %g", area*1e6, tone, z, want)
			}
		}
	}
}

// twoProtectors is 10 kA of a wave into a protector, and a second of a share of its voltage
// behind a feeder with the resistance or the rings given. It returns the crest and the
// charge of the current of the second.
func twoProtectors(t *testing.T, wave string, area, length, share, ohms float64, all []ring) (amps, coulombs float64) {
	t.Helper()
	shape, _ := waveform.ShapeOf(wave)
	n := &circuit.Network{}
	bus, node, far := n.AddNode("bus"), n.AddNode("beyond the loop"), n.AddNode("far")
	n.Sources = []circuit.Source{{Name: "surge", A: bus, Volts: 1e6, Ohms: 100, Shape: shape}}
	coil := func(a, b circuit.Node, henries float64) {
		n.Inductors = append(n.Inductors, circuit.Inductor{Name: "inductance", Branches: []circuit.Branch{{A: a, B: b}}, Henries: []float64{henries}, Ohms: []float64{0}})
	}
	resist := func(a, b circuit.Node, ohms float64) {
		n.Resistors = append(n.Resistors, circuit.Resistor{Name: "resistance", A: a, B: b, Ohms: ohms})
	}
	coil(bus, node, 0.7e-6*length) // of the loop, about that of loose wires in a conduit
	for i, one := range all {
		next := n.AddNode(fmt.Sprint("ring ", i))
		coil(node, next, 2*length*one.henries)
		resist(next, far, 2*length*one.ohms)
		node = next
	}
	if all == nil {
		resist(node, far, 2*length*ohms)
	}
	resist(bus, circuit.Earth, 1e8)
	resist(far, circuit.Earth, 1e8)
	n.Varistors = []circuit.Varistor{{Name: "first", A: bus, Curve: block(1000)}, {Name: "second", A: far, Curve: block(1000 * share)}}
	duration := 3.5 * shape.Tail
	solver, err := transient.New(context.Background(), n, transient.Options{Step: duration / 20e3, Duration: duration})
	if err != nil {
		t.Fatal(err)
	}
	result, err := solver.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return result.Varistors[1].Amps, result.Varistors[1].Coulombs
}

// block has a voltage at 5 kA, a 25th power and 10 milliohm in series.
func block(volts float64) *circuit.Curve {
	c := &circuit.Curve{Volts: []float64{0}, Amps: []float64{0}}
	for e := -3.0; e < 5.3; e += 0.1 {
		amps := math.Pow(10, e)
		c.Amps, c.Volts = append(c.Amps, amps), append(c.Volts, volts*math.Pow(amps/5e3, 1.0/25)+0.01*amps)
	}
	return c
}

// What a second protector takes of a surge is within 10 % of what it takes behind wires
// that carry their skin as time goes on, whatever the wave. By the frequency of a front the
// wires would keep far too much of a long wave from it.
func TestToneSharesTheCurrent(t *testing.T) {
	off, worstOfFront := func(got, want float64) float64 { return math.Abs(got/want - 1) }, 0.0
	for _, wave := range []string{waveform.WaveCurrent, waveform.WaveImpulse, waveform.WaveLong} {
		for _, area := range []float64{2.5e-6, 5.26e-6, 33.6e-6, 240e-6} {
			for _, row := range []struct{ length, share float64 }{{3, 0.8}, {10, 1}, {30, 0.8}} {
				amps, charge := twoProtectors(t, wave, area, row.length, row.share, 0, rings(area))
				ohms := func(tone float64) float64 { return SurgeResistance(area, conductor.Copper, tone) }
				a, q := twoProtectors(t, wave, area, row.length, row.share, ohms(waveform.ToneOf(wave)), nil)
				if !(off(a, amps) < 0.1 && off(q, charge) < 0.1) {
					t.Errorf("%s, %g mm², %g m: got %.4g A and %.4g C, want %.4g and %.4g", wave, area*1e6, row.length, a, q, amps, charge)
				}
				if wave == waveform.WaveImpulse {
					a, _ := twoProtectors(t, wave, area, row.length, row.share, ohms(waveform.FrontTone), nil)
					worstOfFront = max(worstOfFront, off(a, amps))
				}
			}
		}
	}
	if worstOfFront < 0.3 {
		t.Errorf("by the frequency of a front the current of 10/350 is only %.2g off: this test would not see a wrong one", worstOfFront)
	}
}
