package protector

import (
	"fmt"
	"maps"
	"strings"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// Model is a protector ready to be put in a network.
type Model struct {
	Plate    Nameplate
	Curves   [ModeCount]*circuit.Curve // of the modes with varistors; nil elsewhere
	Gaps     [ModeCount]*circuit.Gap   // of the modes with gaps, without name and nodes; nil elsewhere
	Farads   [ModeCount]float64        // F, from side to side
	Readings [ModeCount]float64        // V, what the simulated test reads; 0 where a mode is not connected
	Notes    []string                  // in plain words, what of the nameplate could not be met
}

// Scaled returns the protector as one of the same kind whose varistors need a factor
// more or less voltage for the same current, and whose gaps fire at as much more or
// less. What the nameplate says stays.
func (m *Model) Scaled(factor float64) *Model {
	out := *m
	for mode := range out.Curves {
		if curve := m.Curves[mode]; curve != nil {
			out.Curves[mode] = curve.Scaled(fmt.Sprintf("%s x %g", curve.Name, factor), factor)
		}
		if gap := m.Gaps[mode]; gap != nil {
			scaled := *gap
			scaled.Sparkover *= factor
			scaled.Arc = min(gap.Arc, scaled.Sparkover/2)
			out.Gaps[mode] = &scaled
		}
	}
	return &out
}

// Installed tells where a protector is in a network.
type Installed struct{ Varistors, Gaps []Placed }

// Placed is one element of a protector.
type Placed struct {
	Index    int // among the network's varistors or gaps
	Mode     Mode
	From, To byte // letters of its conductors, 'G' for earth
}

// Install puts the protector with its leads between the conductors of a bus
// and earth. Its lines are the bus's in the order A, B, C; modes whose
// conductors the bus lacks are left out, and so are leads that no mode uses.
// Names of what it adds begin with name, which is unique among protectors. The
// bus itself must hold its conductors to earth by something.
func (m *Model) Install(n *circuit.Network, name string, bus circuit.Bus, leads Leads) Installed {
	return m.install(n, name, bus, leads.bundle)
}

// bundling returns the inductances and resistances of leads, as Leads.bundle.
type bundling func(letters string) (henries, ohms []float64)

func (m *Model) install(n *circuit.Network, name string, bus circuit.Bus, leads bundling) Installed {
	outer := map[byte]circuit.Node{'G': circuit.Earth}
	for _, c := range bus.Conductors {
		outer[c.Letter] = c.Node
	}
	links := m.Plate.links(present(m.Plate.conductors(), outer))
	letters := used(m.Plate.conductors()+"G", links)
	if letters == "" {
		return Installed{}
	}
	inner := map[byte]circuit.Node{}
	coil := circuit.Inductor{Name: name + " leads"}
	coil.Henries, coil.Ohms = leads(letters)
	for i := range letters {
		letter := letters[i]
		inner[letter] = n.AddNode(name + " inside " + string(letter))
		coil.Branches = append(coil.Branches, circuit.Branch{A: outer[letter], B: inner[letter]})
	}
	n.Inductors = append(n.Inductors, coil)
	var out Installed
	biased := bias(n, name, bus, inner)
	for _, l := range links {
		m.place(n, name, l, inner, biased, &out)
	}
	return out
}

// bias returns the nodes at which varistors and gaps see the mains besides what the
// surge makes: the inner ends of the leads, raised by sources where there is a mains.
//
// The voltage v of a node is m + u, of which m stands before the surge comes and goes
// on for the few of its microseconds. What is linear carries m by itself, with the
// currents of the loads, and u as if there were no m; a varistor carries I(m + u), of
// which I(m) is its leakage, below a milliampere. So a circuit of u alone is exact
// with m in series with each varistor and gap, but for leakage and for what the mains
// moves meanwhile: 2.3 % of its crest within 60 µs at 60 Hz where it passes through
// zero, 0.03 % round its crest. Capacitances stay at the inner ends: they are charged
// to m already.
func bias(n *circuit.Network, name string, bus circuit.Bus, inner map[byte]circuit.Node) map[byte]circuit.Node {
	out := maps.Clone(inner)
	for i, c := range bus.Conductors {
		node, there := inner[c.Letter]
		volts := bus.MainsOf(i)
		if !there || volts == 0 {
			continue
		}
		out[c.Letter] = n.AddNode(name + " with mains " + string(c.Letter))
		n.Sources = append(n.Sources, circuit.Source{
			Name: name + " mains " + string(c.Letter), A: out[c.Letter], B: node, Volts: volts, Shape: waveform.Steady(), Ohms: biasOhms,
		})
	}
	return out
}

// biasOhms is the resistance of these sources: it takes a volt of a surge of 10 kA.
const biasOhms = 1e-4

// place puts the component of one link between biased nodes, and its capacitance
// between the inner ends of the leads.
func (m *Model) place(n *circuit.Network, name string, l link, inner, biased map[byte]circuit.Node, out *Installed) {
	a, b := biased[l.from], biased[l.to]
	name += " " + string(l.from) + "-" + string(l.to)
	placed := Placed{Mode: l.mode, From: l.from, To: l.to}
	if gap := m.Gaps[l.mode]; gap != nil {
		element := *gap
		element.Name, element.A, element.B = name, a, b
		placed.Index = len(n.Gaps)
		n.Gaps, out.Gaps = append(n.Gaps, element), append(out.Gaps, placed)
	} else {
		placed.Index = len(n.Varistors)
		n.Varistors = append(n.Varistors, circuit.Varistor{Name: name, A: a, B: b, Curve: m.Curves[l.mode]})
		out.Varistors = append(out.Varistors, placed)
	}
	n.Capacitors = append(n.Capacitors, circuit.Capacitor{Name: name + " capacitance", A: inner[l.from], B: inner[l.to], Farads: m.Farads[l.mode]})
}

// present returns the letters of which there are nodes.
func present(letters string, nodes map[byte]circuit.Node) string {
	return keep(letters, func(letter byte) bool { _, there := nodes[letter]; return there })
}

// used returns the letters that a link has.
func used(letters string, links []link) string {
	return keep(letters, func(letter byte) bool {
		for _, l := range links {
			if l.from == letter || l.to == letter {
				return true
			}
		}
		return false
	})
}

func keep(letters string, wanted func(byte) bool) string {
	return strings.Map(func(r rune) rune {
		if wanted(byte(r)) {
			return r
		}
		return -1
	}, letters)
}
