package extract

import (
	"fmt"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/diagram"
)

// leak is the resistance from each conductor of a bus to earth, ohm: that of
// insulation. It carries nothing that matters and keeps what hangs on
// nothing else from floating.
const leak = 1e8

// addBuses adds a bus for every place that the surge reaches.
func (x *extractor) addBuses() {
	for i := range x.places {
		p := &x.places[i]
		if p.reached && p.system.Known() {
			p.bus = x.addBus(x.nameOf(*p), letters(p.system))
			x.net.Buses[p.bus].Mains = x.mains(*p)
		}
	}
	for end, i := range x.at {
		if bus := x.places[i].bus; bus != None {
			x.out.Buses[end] = bus
		}
	}
	x.startSets()
}

// problem is why the surge case cannot be solved, and what to do.
func (x *extractor) problem(remedy, what string, values ...any) error {
	return analysis.SurgeProblem(x.Document, x.Surge, fmt.Sprintf(what, values...), remedy)
}

// nameOf returns what people call a place, with its terminal where the part
// has several; the load side of a transfer switch is the switch itself.
func (x *extractor) nameOf(p place) string {
	name := x.Document.NameOf(p.part.ID)
	if p.end.Port == "" || p.end.Port == diagram.Common {
		return name
	}
	return name + " " + string(p.end.Port)
}

// unique returns the name, with a number where it is taken.
func (x *extractor) unique(name string) string {
	x.names[name]++
	if n := x.names[name]; n > 1 {
		return x.unique(fmt.Sprintf("%s (%d)", name, n))
	}
	return name
}

func (x *extractor) addBus(name, letters string) int {
	bus := circuit.Bus{Name: x.unique(name)}
	for _, letter := range []byte(letters) {
		node := x.net.AddNode(bus.Name + " " + string(letter))
		bus.Conductors = append(bus.Conductors, circuit.Conductor{Letter: letter, Node: node})
		x.net.Resistors = append(x.net.Resistors, circuit.Resistor{Name: bus.Name + " insulation " + string(letter), A: node, Ohms: leak})
	}
	x.net.Buses = append(x.net.Buses, bus)
	return len(x.net.Buses) - 1
}

// strayFarads is the capacitance to earth of each conductor of a bus that no
// feeder gives any: some metres of wire and a bar (from memory).
const strayFarads = 100e-12

// addStray gives a capacitance to earth to what no line holds near it. It keeps
// a generator between two conductors that only insulation ties to earth from
// losing all digits.
func (x *extractor) addStray() {
	held := make([]bool, len(x.net.Names))
	for _, l := range x.net.Lines {
		for _, node := range append(l.A[:len(l.A):len(l.A)], l.B...) {
			held[node] = true
		}
	}
	for _, b := range x.net.Buses {
		for _, c := range b.Conductors {
			if !held[c.Node] {
				x.addCapacitor(x.unique(b.Name+" stray "+string(c.Letter)), c.Node, circuit.Earth, strayFarads)
			}
		}
	}
}

// addFloating adds a node that nothing but insulation and stray capacitance
// holds to earth.
func (x *extractor) addFloating(name string) circuit.Node {
	node := x.net.AddNode(name)
	x.addResistor(x.unique(name+" insulation"), node, circuit.Earth, leak)
	x.addCapacitor(x.unique(name+" stray"), node, circuit.Earth, strayFarads)
	return node
}

// conductor returns the node of a conductor of a bus, and whether it has one.
func (x *extractor) conductor(bus int, letter byte) (circuit.Node, bool) {
	for _, c := range x.net.Buses[bus].Conductors {
		if c.Letter == letter {
			return c.Node, true
		}
	}
	return circuit.Earth, false
}

// nodesOf returns the nodes of conductors of a bus, which it must have.
func (x *extractor) nodesOf(bus int, letters string) []circuit.Node {
	var out []circuit.Node
	for _, letter := range []byte(letters) {
		node, _ := x.conductor(bus, letter)
		out = append(out, node)
	}
	return out
}

func (x *extractor) lettersOf(bus int) string {
	var out []byte
	for _, c := range x.net.Buses[bus].Conductors {
		out = append(out, c.Letter)
	}
	return string(out)
}

// addInductor adds one inductance with its resistance.
func (x *extractor) addInductor(name string, a, b circuit.Node, henries, ohms float64) {
	x.net.Inductors = append(x.net.Inductors, circuit.Inductor{
		Name: name, Branches: []circuit.Branch{{A: a, B: b}}, Henries: []float64{henries}, Ohms: []float64{ohms},
	})
}

func (x *extractor) addResistor(name string, a, b circuit.Node, ohms float64) {
	x.net.Resistors = append(x.net.Resistors, circuit.Resistor{Name: name, A: a, B: b, Ohms: ohms})
}

func (x *extractor) addCapacitor(name string, a, b circuit.Node, farads float64) {
	x.net.Capacitors = append(x.net.Capacitors, circuit.Capacitor{Name: name, A: a, B: b, Farads: farads})
}
