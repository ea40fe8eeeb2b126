package spice

import (
	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// naming gives the parts of a sample their names: the given ones in turn, or
// their own if none are given.
type naming struct {
	names []string
	used  int
}

func (s *naming) of(own string) string {
	if len(s.names) == 0 {
		return own
	}
	s.used++
	return s.names[(s.used-1)%len(s.names)]
}

// sample is a small network with every kind of element.
func sample(names ...string) *circuit.Network {
	s := &naming{names: names}
	n := &circuit.Network{}
	service, pump, room := s.bus(n, "Main switchboard", "ABCN"), s.bus(n, "Sea-water pump panel", "ABCN"), s.bus(n, "Server room", "A")
	s.lines(n, service, pump, room)
	s.generator(n, service)
	s.protectors(n, service, pump, room)
	n.Windings = []circuit.Winding{{
		Name: s.of("Server room transformer"), P: circuit.Branch{A: pump[1], B: pump[2]}, S: circuit.Branch{A: room[0]},
		Ratio: 4, Henries: 46e-6, Ohms: 0.02,
	}}
	n.Sources = []circuit.Source{{Name: s.of("Ring wave on the neutral"), A: service[3], Volts: -600, Shape: waveform.Ring100kHz(), Ohms: 12}}
	return n
}

func (s *naming) bus(n *circuit.Network, own, letters string) []circuit.Node {
	bus := circuit.Bus{Name: s.of(own)}
	var nodes []circuit.Node
	for _, letter := range []byte(letters) {
		node := n.AddNode(s.of(own + " " + string(letter)))
		bus.Conductors = append(bus.Conductors, circuit.Conductor{Letter: letter, Node: node})
		n.Resistors = append(n.Resistors, circuit.Resistor{Name: s.of("Leak of " + own), A: node, Ohms: 1e6})
		nodes = append(nodes, node)
	}
	n.Buses = append(n.Buses, bus)
	return nodes
}

// lines joins three buses, the first two by all conductors.
func (s *naming) lines(n *circuit.Network, a, b, c []circuit.Node) {
	n.Lines = []circuit.Line{
		{
			Name: s.of("Feeder of the pump panel"), A: a, B: b, Length: 20, Delay: 120e-9,
			Z: circuit.Matrix{{140, 60, 30, 10}, {60, 80, 15, 15}, {30, 15, 75, 50}, {10, 15, 50, 120}}, R: circuit.Balanced{Own: 0.2, Mutual: 0.1},
		},
		{
			Name: s.of("Feeder of the server room"), A: b[:1], B: c, Length: 12, Delay: 70e-9,
			Z: circuit.Balanced{Own: 60, Mutual: 20}.Matrix(1),
		},
	}
}

func (s *naming) generator(n *circuit.Network, at []circuit.Node) {
	g := waveform.OneSided(6000, 2)
	charged, inside := n.AddNode(s.of("Surge generator")), n.AddNode(s.of("Surge generator inside"))
	n.Resistors = append(n.Resistors,
		circuit.Resistor{Name: s.of("Surge generator Rp"), A: charged, Ohms: g.Rp},
		circuit.Resistor{Name: s.of("Surge generator Ro"), A: at[0], Ohms: g.Ro})
	n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: s.of("Surge generator C"), A: charged, Farads: g.C, Charged: g.Charge})
	n.Inductors = append(n.Inductors, circuit.Inductor{
		Name: s.of("Surge generator L"), Branches: []circuit.Branch{{A: charged, B: inside}}, Henries: []float64{g.L}, Ohms: []float64{g.Rs},
	})
	n.Diodes = []circuit.Diode{{Name: s.of("Surge generator D"), A: inside, B: at[0], On: g.On, Off: g.Off}}
}

func (s *naming) protectors(n *circuit.Network, service, pump, room []circuit.Node) {
	line, neutral := n.AddNode(s.of("Pump protector A")), n.AddNode(s.of("Pump protector N"))
	n.Inductors = append(n.Inductors, circuit.Inductor{
		Name:     s.of("Leads of the pump protector"),
		Branches: []circuit.Branch{{A: pump[0], B: line}, {A: pump[3], B: neutral}},
		Henries:  []float64{1e-6, 0.6e-6, 0.6e-6, 1e-6}, Ohms: []float64{0, 0.01},
	})
	n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: s.of("Server room filter"), A: room[0], Farads: 2e-9})
	curve := &circuit.Curve{
		Name:  s.of("Block 130 V"),
		Volts: []float64{0, 205, 308, 380, 451, 604, 800, 900},
		Amps:  []float64{0, 1e-3, 100, 1e3, 3e3, 10e3, 20e3, 30e3},
	}
	n.Varistors = []circuit.Varistor{
		{Name: s.of("Pump protector A-N"), A: line, B: neutral, Curve: curve},
		{Name: s.of("Service protector A-N"), A: service[0], B: service[3], Curve: curve},
		{Name: s.of("Server room protector"), A: room[0], Curve: curve.Scaled(s.of("Block 130 V, high"), 1.1)},
	}
	n.Gaps = []circuit.Gap{{Name: s.of("Service gap N-G"), A: service[3], Sparkover: 600, Arc: 25, Ohms: 0.01, Hold: 1, Off: 1e8}}
}
