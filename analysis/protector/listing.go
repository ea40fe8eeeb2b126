package protector

import (
	"context"
	"fmt"

	"clampline/analysis/circuit"
	"clampline/analysis/transient"
	"clampline/analysis/waveform"
)

const (
	coarseStep = 20e-9 // s, to calibrate by
	fineStep   = 10e-9 // s, to prove it by
	testTime   = 16e-6 // s: both crests of the test, of voltage and current, are over by then
	leakOhms   = 1e8   // ohm, by which a conductor of the test that floats is held to earth
	stiffOhms  = 1e5   // ohm, of the current source: a kilovolt takes 10 mA from it
)

// Test returns what the listing test of a mode reads, V peak, solved at a finer
// step than that of Calibrate. A mode that is not connected is an error.
func (m *Model) Test(ctx context.Context, mode Mode) (float64, error) {
	if mode < 0 || mode >= ModeCount || !m.Plate.Modes[mode].Connected {
		return 0, fmt.Errorf("mode %s: it is not connected and cannot be tested", mode)
	}
	return m.read(ctx, mode, fineStep)
}

func (m *Model) read(ctx context.Context, mode Mode, step float64) (float64, error) {
	volts, err := m.listing(mode).read(ctx, step)
	if err != nil {
		err = fmt.Errorf("mode %s: its listing test: %w", mode, err)
	}
	return volts, err
}

// listing is the network of the test of one mode. Its first bus is the ends of
// the leads; its second, for a gap, the inner ends of the two that are driven.
type listing struct {
	network *circuit.Network
	outer   circuit.Pair // that is driven
	gap     int          // the gap that is tested; none if it is a varistor
}

// none stands for no gap.
const none = -1

// listing makes the test of a connected mode: of A where it is of one line, of
// A and B where it is of two. What is not driven floats.
func (m *Model) listing(mode Mode) *listing {
	n := &circuit.Network{}
	bus := m.ends(n)
	placed := m.install(n, "tested", bus, m.leadsOfTest())
	n.Buses = append(n.Buses, bus)
	l := &listing{network: n, gap: none}
	tested := first(placed.Varistors, mode)
	if gap := first(placed.Gaps, mode); gap != nil {
		tested, l.gap = gap, gap.Index
		element := n.Gaps[gap.Index]
		n.Buses = append(n.Buses, circuit.Bus{Name: "inside", Conductors: []circuit.Conductor{{Letter: gap.From, Node: element.A}, {Letter: gap.To, Node: element.B}}})
	}
	l.outer = pairOf(bus, tested)
	if m.Plate.Rating == Up && l.gap == none {
		l.driveCurrent(m.Plate.current())
	} else {
		l.driveCombination()
	}
	return l
}

// ends makes the bus of the ends of the leads.
func (m *Model) ends(n *circuit.Network) circuit.Bus {
	letters := used(m.Plate.conductors(), m.Plate.links(m.Plate.conductors()))
	bus := circuit.Bus{Name: "ends of the leads"}
	for i := range letters {
		node := n.AddNode("end " + string(letters[i]))
		bus.Conductors = append(bus.Conductors, circuit.Conductor{Letter: letters[i], Node: node})
		n.Resistors = append(n.Resistors, circuit.Resistor{Name: "leak " + string(letters[i]), A: node, Ohms: leakOhms})
	}
	return bus
}

// leadsOfTest returns those with which the protector is tested.
func (m *Model) leadsOfTest() bundling {
	if m.Plate.Rating == Up {
		return terminals
	}
	lead := Lead{Length: leadOfTest}
	return Leads{Phase: lead, Neutral: lead, Earth: lead}.bundle
}

// first returns the first element of a mode, or nil.
func first(all []Placed, mode Mode) *Placed {
	for i := range all {
		if all[i].Mode == mode {
			return &all[i]
		}
	}
	return nil
}

// pairOf returns the conductors of a bus that an element lies between.
func pairOf(bus circuit.Bus, p *Placed) circuit.Pair {
	out := circuit.Pair{From: circuit.ToEarth, To: circuit.ToEarth}
	for i, c := range bus.Conductors {
		if c.Letter == p.From {
			out.From = i
		}
		if c.Letter == p.To {
			out.To = i
		}
	}
	return out
}

// driveCurrent drives an 8/20 current through the protector.
func (l *listing) driveCurrent(amps float64) {
	l.network.Sources = append(l.network.Sources, circuit.Source{
		Name: "8/20", A: l.node(l.outer.From), B: l.node(l.outer.To),
		Volts: amps * stiffOhms, Shape: waveform.Current8x20(), Ohms: stiffOhms,
	})
}

// driveCombination connects the combination wave generator of a VPR.
func (l *listing) driveCombination() {
	l.network.AddCombination("generator", l.node(l.outer.From), l.node(l.outer.To), waveform.Combination(testVolts, testOhms))
}

func (l *listing) node(conductor int) circuit.Node {
	if conductor == circuit.ToEarth {
		return circuit.Earth
	}
	return l.network.Buses[0].Conductors[conductor].Node
}

// read solves the test and returns the peak at the ends of the leads, V. A gap
// fires on the front, which takes a fine step.
func (l *listing) read(ctx context.Context, step float64) (float64, error) {
	if l.gap != none {
		step = min(step, fineStep)
	}
	result, err := solve(ctx, l.network, transient.Options{Step: step, Duration: testTime})
	if err != nil {
		return 0, err
	}
	return result.Buses[0][l.place()].Volts, nil
}

// place returns where the pair that is driven is among all pairs.
func (l *listing) place() int {
	for i, p := range circuit.Pairs(len(l.network.Buses[0].Conductors)) {
		if p == l.outer {
			return i
		}
	}
	panic("protector: a test that drives no pair of conductors")
}

func solve(ctx context.Context, n *circuit.Network, o transient.Options) (*transient.Result, error) {
	solver, err := transient.New(ctx, n, o)
	if err != nil {
		return nil, err
	}
	return solver.Run(ctx)
}
