package transient

import (
	"fmt"
	"math"
	"math/rand/v2"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// power returns a curve of a power law that holds volts at amps, with a bulk
// resistance, as straight pieces.
func power(name string, volts, amps, alpha, bulk float64) *circuit.Curve {
	c := &circuit.Curve{Name: name, Volts: []float64{0}, Amps: []float64{0}}
	for i := math.Log10(1e-3); i < 5.3; i += 0.1 {
		a := math.Pow(10, i)
		c.Amps = append(c.Amps, a)
		c.Volts = append(c.Volts, (volts-bulk*amps)*math.Pow(a/amps, 1/alpha)+bulk*a)
	}
	return c
}

// addBus adds a bus with conductors of the letters.
func addBus(n *circuit.Network, name, letters string) circuit.Bus {
	b := circuit.Bus{Name: name}
	for _, letter := range []byte(letters) {
		node := n.AddNode(name + " " + string(letter))
		b.Conductors = append(b.Conductors, circuit.Conductor{Letter: letter, Node: node})
		n.Resistors = append(n.Resistors, circuit.Resistor{Name: name + " leak " + string(letter), A: node, Ohms: 1e8})
	}
	n.Buses = append(n.Buses, b)
	return b
}

func nodes(b circuit.Bus) []circuit.Node {
	var out []circuit.Node
	for _, c := range b.Conductors {
		out = append(out, c.Node)
	}
	return out
}

// addLine joins two buses of like conductors.
func addLine(n *circuit.Network, a, b circuit.Bus, length float64) {
	n.Lines = append(n.Lines, circuit.Line{
		Name: a.Name + " to " + b.Name, A: nodes(a), B: nodes(b), Length: length,
		Z: circuit.Balanced{Own: 70, Mutual: 35}.Matrix(len(a.Conductors)), R: circuit.Balanced{Own: 0.01 * length, Mutual: 0.01 * length}, Delay: length / 2e8,
	})
}

// addProtector puts a protector with all its modes on a bus.
func addProtector(n *circuit.Network, name string, bus circuit.Bus, lead float64, curve *circuit.Curve) {
	k := len(bus.Conductors)
	inductor := circuit.Inductor{Name: name + " leads", Henries: make([]float64, (k+1)*(k+1)), Ohms: make([]float64, k+1)}
	inner := make([]circuit.Node, k+1)
	for i := range k + 1 {
		inner[i] = n.AddNode(fmt.Sprintf("%s inner %d", name, i))
		for j := range k + 1 {
			inductor.Henries[i*(k+1)+j] = 0.15e-6 * lead
		}
		inductor.Henries[i*(k+1)+i] = 1.1e-6 * lead
		inductor.Ohms[i] = 0.01 * lead
		if i < k {
			inductor.Branches = append(inductor.Branches, circuit.Branch{A: bus.Conductors[i].Node, B: inner[i]})
		} else {
			inductor.Branches = append(inductor.Branches, circuit.Branch{A: inner[i], B: circuit.Earth})
		}
	}
	n.Inductors = append(n.Inductors, inductor)
	for i := range inner {
		for j := range i {
			n.Varistors = append(n.Varistors, circuit.Varistor{Name: fmt.Sprintf("%s %d-%d", name, j, i), A: inner[j], B: inner[i], Curve: curve})
			n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: fmt.Sprintf("%s c %d-%d", name, j, i), A: inner[j], B: inner[i], Farads: 3e-9})
		}
	}
}

// addGenerator puts a combination generator between two nodes.
func addGenerator(n *circuit.Network, name string, a, b circuit.Node, volts, ohms float64) {
	n.AddCombination(name, a, b, waveform.Combination(volts, ohms))
}

// building is a tree of buses with a surge at the first and a protector at
// every third but one.
func building(buses, protectors int) *circuit.Network {
	r := rand.New(rand.NewPCG(7, 11))
	n := &circuit.Network{}
	curve := power("700 V", 700, 3000, 25, 0.03)
	var all []circuit.Bus
	for i := range buses {
		b := addBus(n, fmt.Sprintf("bus %d", i), "ABCN")
		if i > 0 {
			up := all[r.IntN(min(i, 12))+max(0, i-12)]
			addLine(n, up, b, 10+50*r.Float64())
		}
		if i < protectors*3 && i%3 == 1 {
			addProtector(n, fmt.Sprintf("protector %d", i), b, 0.3, curve)
		}
		all = append(all, b)
	}
	main := all[0]
	n.Inductors = append(n.Inductors, circuit.Inductor{Name: "bond", Branches: []circuit.Branch{{A: main.Conductors[3].Node}}, Henries: []float64{0.3e-6}, Ohms: []float64{0.001}})
	for i := range 3 {
		addGenerator(n, fmt.Sprintf("generator %d", i), main.Conductors[i].Node, circuit.Earth, 6000, 6)
	}
	return n
}
