package spice

import (
	"fmt"
	"math"
	"math/rand/v2"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// disc returns the typical curve of a 20 mm disc for 130 V: the four-term
// logarithmic fit of a varistor library of the Institute of High Voltage
// Engineering, TU Graz, 1994/95, and a straight line through the origin below
// 1 mA.
func disc(name string, points int) *circuit.Curve {
	return fit(name, points, 2.4011200, 0.0253150, -0.0005975, 0.0051090)
}

func fit(name string, points int, b1, b2, b3, b4 float64) *circuit.Curve {
	const low, high = 1e-3, 20e3 // A
	c := &circuit.Curve{Name: name, Volts: []float64{0}, Amps: []float64{0}}
	for k := range points {
		x := math.Log10(low) + float64(k)/float64(points-1)*math.Log10(high/low)
		c.Amps = append(c.Amps, math.Pow(10, x))
		c.Volts = append(c.Volts, math.Pow(10, b1+b2*x+b3*math.Exp(-x)+b4*math.Exp(x)))
	}
	return c
}

// building is a tree of buses of four conductors with protectors of ten
// varistors on five coupled leads, and a combination wave generator between
// line A and earth of the first bus.
func building(buses, protectors int) *circuit.Network {
	n := &circuit.Network{}
	random := rand.New(rand.NewPCG(1, 2))
	for i := range buses {
		addBus(n, fmt.Sprintf("Panel %d", i+1))
		if i > 0 {
			from := n.Buses[(i-1)/2]
			addLine(n, from, n.Buses[i], 10+50*random.Float64())
		}
	}
	small, block := disc("20 mm 130", 60), fit("32 mm 150", 60, 2.4639255, 0.0231608, -0.0006838, 0.0037158)
	for i := range protectors {
		addProtector(n, n.Buses[i*buses/protectors], small, block)
	}
	addCombination(n, n.Buses[0].Conductors[0].Node, circuit.Earth, waveform.Combination(6000, 2))
	return n
}

func addBus(n *circuit.Network, name string) {
	bus := circuit.Bus{Name: name}
	for _, letter := range []byte("ABCN") {
		node := n.AddNode(name + " " + string(letter))
		bus.Conductors = append(bus.Conductors, circuit.Conductor{Letter: letter, Node: node})
		n.Resistors = append(n.Resistors, circuit.Resistor{Name: "leak " + name + string(letter), A: node, Ohms: 1e6})
		n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: "load " + name + string(letter), A: node, Farads: 1e-9})
	}
	n.Buses = append(n.Buses, bus)
}

func addLine(n *circuit.Network, a, b circuit.Bus, length float64) {
	l := circuit.Line{
		Name: a.Name + " to " + b.Name, Length: length, Delay: length / 170e6,
		Z: circuit.Balanced{Own: 60, Mutual: 45}.Matrix(len(a.Conductors)), R: circuit.Balanced{Own: 0.01 * length, Mutual: 0.005 * length},
	}
	for k := range a.Conductors {
		l.A = append(l.A, a.Conductors[k].Node)
		l.B = append(l.B, b.Conductors[k].Node)
	}
	n.Lines = append(n.Lines, l)
}

func addProtector(n *circuit.Network, bus circuit.Bus, small, block *circuit.Curve) {
	c := circuit.Inductor{Name: "leads of protector at " + bus.Name}
	inner := make([]circuit.Node, 5)
	for k := range inner {
		inner[k] = n.AddNode(fmt.Sprintf("%s inner %d", bus.Name, k))
		outer := circuit.Earth
		if k < 4 {
			outer = bus.Conductors[k].Node
		}
		c.Branches = append(c.Branches, circuit.Branch{A: outer, B: inner[k]})
		c.Ohms = append(c.Ohms, 2e-3)
		for j := range inner {
			c.Henries = append(c.Henries, map[bool]float64{true: 0.5e-6, false: 0.3e-6}[j == k])
		}
	}
	n.Inductors = append(n.Inductors, c)
	for i := range inner {
		for j := range i {
			curve := small
			if i == 4 {
				curve = block
			}
			name := fmt.Sprintf("varistor %d-%d at %s", j, i, bus.Name)
			n.Varistors = append(n.Varistors, circuit.Varistor{Name: name, A: inner[j], B: inner[i], Curve: curve})
			n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: name, A: inner[j], B: inner[i], Farads: 1.5e-9})
		}
	}
}

// addCombination adds the generator between two nodes; b may be earth.
func addCombination(n *circuit.Network, a, b circuit.Node, g waveform.Generator) {
	charged := n.AddNode("generator")
	n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: "generator", A: charged, B: b, Farads: g.C, Charged: g.Charge})
	n.Resistors = append(n.Resistors,
		circuit.Resistor{Name: "generator Rp", A: charged, B: b, Ohms: g.Rp},
		circuit.Resistor{Name: "generator Ro", A: a, B: b, Ohms: g.Ro})
	n.Inductors = append(n.Inductors, circuit.Inductor{
		Name: "generator Rs L", Branches: []circuit.Branch{{A: charged, B: a}}, Henries: []float64{g.L}, Ohms: []float64{g.Rs},
	})
}
