package transient

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// extreme returns a network of values that no building has: lines of one step
// and of 10 km, curves from 1 V to 40 kV, inductances, capacitances and
// resistances over nine powers of ten, and buses on nothing but their
// insulation.
func extreme(seed uint64, step float64) *circuit.Network {
	w := &wild{Rand: rand.New(rand.NewPCG(seed, 1)), n: &circuit.Network{}}
	w.letters = []string{"A", "AN", "ABN", "ABCN"}[w.IntN(4)]
	for i := range 2 + w.IntN(8) {
		b := addBus(w.n, fmt.Sprintf("bus %d", i), w.letters)
		if i > 0 {
			w.extremeWay(w.buses[w.IntN(i)], b, step)
		}
		for _, c := range b.Conductors {
			w.extremeLoad(c.Node)
		}
		w.buses = append(w.buses, b)
	}
	addBus(w.n, "alone", w.letters)
	w.extremeSurge()
	for i, b := range w.buses {
		w.extremeProtector(i, b)
	}
	return w.n
}

// extremeWay joins two buses by a line as short or as long as can be, or by a
// inductor.
func (w *wild) extremeWay(a, b circuit.Bus, step float64) {
	w.line(a, b)
	l := &w.n.Lines[len(w.n.Lines)-1]
	l.Z = l.Z.Scaled(w.between(1e-3, 1e5) / l.Z[0][0])
	switch w.IntN(4) {
	case 0:
		l.Delay = step
	case 1:
		l.Delay = step * (1 + w.Float64())
	case 2:
		l.Delay = 50 * microsec
	default:
		w.n.Lines = w.n.Lines[:len(w.n.Lines)-1]
		w.short(a, b)
		c := w.n.Inductors[len(w.n.Inductors)-1]
		by := w.between(1e-6, 1e6)
		for i := range c.Henries {
			c.Henries[i] *= by
		}
	}
}

func (w *wild) extremeLoad(node circuit.Node) {
	switch w.IntN(4) {
	case 0:
		resist(w.n, node, circuit.Earth, w.between(1e-3, 1e9))
	case 1:
		store(w.n, node, circuit.Earth, w.between(1e-15, 1e-3), 0)
	case 2:
		wind(w.n, node, circuit.Earth, w.between(1e-10, 1), w.between(1e-6, 1e3))
	}
}

func (w *wild) extremeSurge() {
	at := w.buses[0].Conductors[0].Node
	switch w.IntN(3) {
	case 0:
		addGenerator(w.n, "generator", at, circuit.Earth, w.between(1, 1e6), w.between(0.01, 1e4))
	case 1:
		drive(w.n, at, w.between(1e-3, 1e7), w.between(1e-3, 1e6), waveform.Burst5x50())
	default:
		drive(w.n, at, w.between(1e-3, 1e7), w.between(1e-3, 1e6), step1())
	}
}

func (w *wild) extremeProtector(i int, b circuit.Bus) {
	name := fmt.Sprintf("protector %d", i)
	at := b.Conductors[len(b.Conductors)-1].Node
	switch w.IntN(6) {
	case 0:
		limit(w.n, at, power(name, 1, w.between(1e-3, 3000), 50, 1e-6))
	case 1:
		limit(w.n, at, power(name, 40*kilo, kilo, 30, 0.1))
	case 2:
		addProtector(w.n, name, b, w.between(1e-4, 100), clamp(w.between(1, 40*kilo)))
	case 3:
		w.gap(name, b)
	case 4:
		limit(w.n, at, fine(w.between(1, 40*kilo), 3000, w.between(1, 80), 400))
	}
}

// numbers reports whether all that a result holds is finite.
func numbers(r *Result) bool {
	sum := r.Energy.Delivered + r.Energy.Lost + r.Energy.Stored
	for _, bus := range r.Buses {
		for _, p := range bus {
			sum += p.Volts + p.At
		}
	}
	for _, d := range append(append([]Duty(nil), r.Varistors...), r.Gaps...) {
		sum += d.Amps + d.At + d.Coulombs + d.Joules
	}
	for _, l := range r.Lines {
		for _, p := range l {
			for _, v := range p.Volts {
				sum += v
			}
		}
	}
	for _, w := range r.Traces {
		for _, v := range w.Values {
			sum += v
		}
	}
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// No network makes a panic, an endless search or a number that is none. One
// that cannot be solved is refused with the name of a bus.
func TestExtremeNetworks(t *testing.T) {
	refused := 0
	for seed := range uint64(networks) {
		const step = 50e-9
		n := extreme(seed, step)
		r, err := solveAny(n, Options{Step: step, Duration: 110 * microsec, Samples: 2, Record: toEarth(n)})
		if err != nil {
			refused++
			if !strings.Contains(err.Error(), "bus ") {
				t.Errorf("network %d: got %q, which names no bus", seed, err)
			}
			continue
		}
		if !numbers(r) {
			t.Errorf("network %d: got what is no number: %+v", seed, r.Energy)
		}
		if last := r.Buses[len(r.Buses)-1]; last[0].Volts != 0 {
			t.Errorf("network %d: got %g V on a bus that nothing touches", seed, last[0].Volts)
		}
	}
	t.Logf("%d of %d networks refused", refused, networks)
	if refused > networks/20 {
		t.Errorf("got %d of %d networks refused", refused, networks)
	}
}

func FuzzNetwork(f *testing.F) {
	f.Add(uint64(1), 50e-9)
	f.Add(uint64(2), 2e-9)
	f.Add(uint64(3), 1e-3)
	f.Fuzz(func(t *testing.T, seed uint64, step float64) {
		if !(step > 1e-9 && step < 1) {
			t.Skip("no step for lines of 50 µs")
		}
		r, err := solveAny(extreme(seed, step), Options{Step: step, Duration: 300 * step, Samples: 2})
		if err == nil && !numbers(r) {
			t.Errorf("got what is no number: %+v", r.Energy)
		}
	})
}

// solveAny solves a network, or tells why not.
func solveAny(n *circuit.Network, o Options) (*Result, error) {
	s, err := New(context.Background(), n, o)
	if err != nil {
		return nil, err
	}
	return s.Run(context.Background())
}

// A surge of which a value is no number, or grows beyond all, is refused: there
// is no result that looks like one.
func TestSurgeWithoutANumberIsRefused(t *testing.T) {
	for _, row := range []struct {
		name  string
		shape waveform.Shape
		volts float64
	}{
		{"constant no number", waveform.Shape{Form: waveform.Exponential, Scale: math.NaN(), Rise: 1e-6, Fall: 1e-4}, 6000},
		{"end no number", waveform.Shape{Form: waveform.Exponential, Scale: 1, Rise: 1e-6, Fall: math.NaN()}, 6000},
		{"frequency without end", waveform.Shape{Form: waveform.Ringing, Scale: 1, Rise: 1e-6, Fall: 1e-4, Frequency: math.Inf(1)}, 6000},
		{"height beyond all", waveform.Shape{Form: waveform.Exponential, Scale: 1e200, Rise: 1e-6, Fall: 1e-4}, 1e200},
	} {
		for _, limited := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, limited %v", row.name, limited), func(t *testing.T) {
				n := &circuit.Network{}
				bus := point(n, "panel")
				drive(n, bus, row.volts, 2, row.shape)
				if limited {
					limit(n, bus, disc150().curve(8))
				}
				r, err := solveAny(n, Options{Step: 1e-8, Duration: microsec})
				if err == nil {
					t.Fatalf("got no error but a peak of %g V", r.Buses[0][0].Volts)
				}
				if !strings.Contains(err.Error(), "panel") && !strings.Contains(err.Error(), "source") {
					t.Errorf("got %q, which names neither bus nor source", err)
				}
			})
		}
	}
}
