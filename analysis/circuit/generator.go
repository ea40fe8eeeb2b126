package circuit

import "clampline/analysis/waveform"

// AddCombination adds a combination wave generator between two nodes, to its
// plus. Names of what it adds begin with name, which is unique.
func (n *Network) AddCombination(name string, to, back Node, g waveform.Generator) {
	charged, inside := n.AddNode(name+" capacitor"), n.AddNode(name+" inside")
	n.Capacitors = append(n.Capacitors, Capacitor{Name: name + " C", A: charged, B: back, Farads: g.C, Charged: g.Charge})
	n.Resistors = append(n.Resistors,
		Resistor{Name: name + " Rp", A: charged, B: back, Ohms: g.Rp},
		Resistor{Name: name + " Rs", A: charged, B: inside, Ohms: g.Rs},
		Resistor{Name: name + " Ro", A: to, B: back, Ohms: g.Ro})
	n.Inductors = append(n.Inductors, Inductor{Name: name + " L", Branches: []Branch{{inside, to}}, Henries: []float64{g.L}, Ohms: []float64{0}})
}
