package transient

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
)

// transformer returns a step of 1 kV behind 10 ohm on the primary of a winding
// and a load on its secondary. The buses are the primary and the secondary.
func transformer(ratio, henries, ohms, load float64) *circuit.Network {
	n := &circuit.Network{}
	p, s := point(n, "primary"), point(n, "secondary")
	drive(n, p, kilo, 10, step1())
	n.Windings = append(n.Windings, circuit.Winding{Name: "winding", P: circuit.Branch{A: p}, S: circuit.Branch{A: s}, Ratio: ratio, Henries: henries, Ohms: ohms})
	resist(n, s, circuit.Earth, load)
	return n
}

// The defining equations of a winding at every step: currents in the ratio of
// turns, the voltage behind the ratio less that of the secondary is L di/dt + R
// i, and what goes in comes out but for what the leakage keeps and burns.
func TestWinding(t *testing.T) {
	for _, row := range []struct {
		name                       string
		ratio, henries, ohms, load float64
	}{
		{"1 : 1", 1, 50e-6, 0, 20},
		{"4 : 1, 46 µH", 4, 46e-6, 0.02, 5},
		{"1 : 2", 0.5, 46e-6, 1, 100},
	} {
		t.Run(row.name, func(t *testing.T) {
			const h = 20e-9
			w := waves(t, transformer(row.ratio, row.henries, row.ohms, row.load), h, 60*microsec)
			p, s := w[0].Values, w[1].Values
			for k := 3; k < len(p); k++ { // the first step is one of two halves
				ip, is := (kilo-p[k])/10, s[k]/row.load
				about(t, "secondary current over primary", is, row.ratio*ip, 1e-4*kilo/10)
				i, old := is, s[k-1]/row.load
				slope := (p[k]+p[k-1])/2/row.ratio - (s[k]+s[k-1])/2 - row.ohms*(i+old)/2
				about(t, "voltage of the leakage", slope, row.henries*(i-old)/h, 1e-4*kilo)
				in, out := p[k]*ip, s[k]*is
				kept := (p[k]/row.ratio - s[k]) * is
				about(t, "power in", in, out+kept, 1e-4*kilo*kilo/10)
			}
		})
	}
}

// A secondary without load has the voltage of the turns: a winding ratio of
// 480 : 120 V makes 500 V of 2 kV.
func TestOpenWinding(t *testing.T) {
	n := transformer(4, 46e-6, 0, 1e6)
	n.Sources[0].Volts = 2 * kilo
	w := waves(t, n, 20e-9, 20*microsec)
	within(t, "secondary", w[1].Values[len(w[1].Values)-1], 500, 1e-4)
}

// A fast front crosses by capacitance: V C12/(C12+C2), for 2 nF and 50 nF.
func TestCapacitiveTransfer(t *testing.T) {
	n := &circuit.Network{}
	p, s := point(n, "primary"), point(n, "secondary")
	drive(n, p, 1, 0.01, step1())
	store(n, p, s, 2e-9, 0)
	store(n, s, circuit.Earth, 50e-9, 0)
	w := waves(t, n, 1e-9, microsec)
	within(t, "secondary", w[1].Values[1000], 0.0385, 5e-3) // printed to three digits
}

// The energy of a winding's leakage and of coupled inductors is in the balance.
func TestEnergyOfInductors(t *testing.T) {
	for _, row := range []struct {
		name string
		put  func(n *circuit.Network, at circuit.Node)
		want float64 // J, with 1 A from 100 V behind 100 ohm
	}{
		{"inductor", func(n *circuit.Network, at circuit.Node) { wind(n, at, circuit.Earth, 1e-3, 0) }, 0.5e-3},
		// Each of the pair carries 0.5 A: (40 + 10) µH 0.25 A².
		{"pair", coupledPair, 12.5e-6},
		// 4 A behind 4 : 1.
		{"winding", func(n *circuit.Network, at circuit.Node) { shortedWinding(n, at, 4, 8e-6, 0) }, 64e-6},
	} {
		t.Run(row.name, func(t *testing.T) {
			n := &circuit.Network{}
			node := point(n, "bus")
			drive(n, node, 100, 100, step1())
			row.put(n, node)
			r := run(t, n, Options{Step: 1e-8, Duration: 200 * microsec})
			within(t, "stored", r.Energy.Stored, row.want, 1e-4)
			if r.Energy.Error() > 1e-3 {
				t.Errorf("balance: got %g", r.Energy.Error())
			}
		})
	}
}

// A current through one branch of a pair drives M di/dt in the other: with k =
// 0.5 of equal branches, half of the voltage, and the other way round where
// the branch is turned.
func TestCoupledBranches(t *testing.T) {
	for _, row := range []struct {
		name         string
		mutual, want float64
	}{{"same way", 5e-6, 0.5}, {"loosely", 1e-6, 0.1}, {"turned over", -5e-6, -0.5}} {
		t.Run(row.name, func(t *testing.T) {
			n := &circuit.Network{}
			a, b := point(n, "driven"), point(n, "open")
			drive(n, a, 100, 50, step1())
			n.Inductors = append(n.Inductors, circuit.Inductor{
				Name: "pair", Branches: []circuit.Branch{{A: a}, {A: b}},
				Henries: []float64{10e-6, row.mutual, row.mutual, 10e-6}, Ohms: []float64{0, 0},
			})
			w := waves(t, n, 1e-9, 0.5*microsec)
			for k := 1; k < len(w[0].Values); k++ {
				about(t, "open branch", w[1].Values[k], row.want*w[0].Values[k], 1e-4)
			}
		})
	}
}

// Two leads that carry a current there and back hold less than one alone: L =
// L1 + L2 - 2M.
func TestLoopOfTwoLeads(t *testing.T) {
	const own, mutual, ohms = 1e-6, 0.8e-6, 0.5
	n := &circuit.Network{}
	a, end := point(n, "bus"), n.AddNode("end")
	drive(n, a, 100, 1, step1())
	n.Inductors = append(n.Inductors, circuit.Inductor{
		Name: "leads", Branches: []circuit.Branch{{A: a, B: end}, {A: circuit.Earth, B: end}},
		Henries: []float64{own, mutual, mutual, own}, Ohms: []float64{ohms, ohms},
	})
	const h, tau = 1e-9, 2 * (own - mutual) / (1 + 2*ohms)
	v := waves(t, n, h, microsec)[0].Values
	within(t, "current after the time constant", 100-v[at(tau, h)], 50*(1-math.Exp(-1)), printed)
	within(t, "current at last", 100-v[len(v)-1], 50*(1-math.Exp(-microsec/tau)), printed)
}
