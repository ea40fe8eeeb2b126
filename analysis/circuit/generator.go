package circuit

import "clampline/analysis/waveform"

// AddCombination adds a combination wave generator between two nodes, to its
// plus. Names of what it adds begin with name, which is unique.
func (n *Network) AddCombination(name string, to, back Node, g waveform.Generator) {
	charged, end := n.AddNode(name+" capacitor"), to
	if g.On > 0 {
		end = n.addDiode(name, to, g)
	}
	n.Capacitors = append(n.Capacitors, Capacitor{Name: name + " C", A: charged, B: back, Farads: g.C, Charged: g.Charge})
	n.Resistors = append(n.Resistors,
		Resistor{Name: name + " Rp", A: charged, B: back, Ohms: g.Rp},
		Resistor{Name: name + " Ro", A: to, B: back, Ohms: g.Ro})
	n.Inductors = append(n.Inductors, Inductor{Name: name + " L", Branches: []Branch{{charged, end}}, Henries: []float64{g.L}, Ohms: []float64{g.Rs}})
}

// addDiode adds the diode of a generator, the way that its charge drives the
// current, and returns the node before it.
func (n *Network) addDiode(name string, to Node, g waveform.Generator) Node {
	inside := n.AddNode(name + " inside")
	d := Diode{Name: name + " D", A: inside, B: to, On: g.On, Off: g.Off}
	if g.Charge < 0 {
		d.A, d.B = to, inside
	}
	n.Diodes = append(n.Diodes, d)
	return inside
}
