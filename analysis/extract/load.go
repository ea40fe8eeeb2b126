package extract

import (
	"clampline/analysis/circuit"
	"clampline/diagram"
)

// A typical filter at the terminals of electronic equipment, F: between its
// conductors, and from each to earth (from memory).
const (
	filterBetween = 0.47e-6
	filterToEarth = 4.7e-9
)

// addLoads adds what a surge meets at the loads that are not open.
func (x *extractor) addLoads() {
	var motors []diagram.ID
	for _, p := range x.places {
		if p.bus == None || p.part.Kind != diagram.Load {
			continue
		}
		if x.ctx.Err() != nil {
			return
		}
		p.part.Load.Terminals = x.Vary.terminals(p.part)
		switch {
		case p.part.Load.Terminals == diagram.ResistiveTerminals:
			x.addResistive(p)
		case p.part.Load.Terminals == diagram.FilteredTerminals:
			x.addFiltered(p)
		case IsUnstated(p.part):
			x.out.Unstated = append(x.out.Unstated, p.part.ID)
			if x.Filtered {
				x.addFiltered(p)
			}
		case p.part.Load.Terminals == "":
			motors = append(motors, p.part.ID)
		}
	}
	if len(motors) > 0 {
		x.assumed(withMore(motors, motorsOpen, "common practice, no source"))
	}
	switch loads := x.out.Unstated; {
	case len(loads) == 0:
	case x.Filtered:
		x.assumed(AsFilters(loads))
	default:
		x.assumed(AsOpen(loads))
	}
}

// branches returns the pairs of conductors that a load is connected between,
// and the nominal voltage across them.
func (x *extractor) branches(p place) ([]circuit.Branch, float64) {
	neutral, hasNeutral := x.conductor(p.bus, 'N')
	lines := x.nodesOf(p.bus, string(x.linesOf(p.bus)))
	connection := p.part.Load.Connection
	if connection == "" && hasNeutral || connection == diagram.ThreeWireStar && hasNeutral {
		return toOne(lines, neutral), p.system.LineToNeutral()
	}
	switch {
	case connection == diagram.ToNeutral && hasNeutral:
		return toOne(lines[:1], neutral), p.system.LineToNeutral()
	case connection == diagram.BetweenLines && len(lines) > 1:
		return []circuit.Branch{{A: lines[0], B: lines[1]}}, p.system.Voltage
	case len(lines) == 3:
		return []circuit.Branch{{A: lines[0], B: lines[1]}, {A: lines[1], B: lines[2]}, {A: lines[2], B: lines[0]}}, p.system.Voltage
	}
	first := x.net.Buses[p.bus].Conductors
	return []circuit.Branch{{A: first[0].Node, B: first[1].Node}}, p.system.Voltage
}

func toOne(from []circuit.Node, to circuit.Node) []circuit.Branch {
	var out []circuit.Branch
	for _, node := range from {
		out = append(out, circuit.Branch{A: node, B: to})
	}
	return out
}

// addResistive adds a load as a resistance that takes its power at nominal
// voltage.
func (x *extractor) addResistive(p place) {
	branches, volts := x.branches(p)
	if rated := p.part.Load.Voltage; rated > 0 {
		volts = rated
		if _, star := x.conductor(p.bus, 'N'); star && len(branches) > 1 && branches[0].B == branches[1].B && rated > 1.2*p.system.LineToNeutral() {
			volts = p.system.LineToNeutral() // it is stated between lines
		}
	}
	power := p.part.Load.Power
	if power <= 0 {
		x.assume(p.part.ID, "counts as open: its power is not known", "from the sheet")
		return
	}
	ohms := max(volts*volts*float64(len(branches))/power, 1e-3)
	for _, b := range branches {
		x.addResistor(x.unique(x.nameOf(p)+" resistance"), b.A, b.B, ohms)
	}
}

// addFiltered adds the filter of an electronic load.
func (x *extractor) addFiltered(p place) {
	branches, _ := x.branches(p)
	ends := map[circuit.Node]bool{}
	for _, b := range branches {
		x.addCapacitor(x.unique(x.nameOf(p)+" filter"), b.A, b.B, filterBetween)
		ends[b.A], ends[b.B] = true, true
	}
	for _, c := range x.net.Buses[p.bus].Conductors {
		if ends[c.Node] {
			x.addCapacitor(x.unique(x.nameOf(p)+" filter to earth"), c.Node, circuit.Earth, filterToEarth)
		}
	}
}
