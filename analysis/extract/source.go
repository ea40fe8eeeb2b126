package extract

import (
	"cmp"
	"math"

	"clampline/analysis/circuit"
	"clampline/diagram"
)

// What stands for what the sheet does not say of a source.
const (
	usualFaultCurrent = 10e3 // A
	usualGenerator    = 100e3
	usualReactance    = 15.0 // per cent, subtransient (from memory)
	usualSourceXR     = 5.0
)

// addSources adds what the sources are that the surge does not come from:
// their short-circuit impedance from each line to the star point.
func (x *extractor) addSources() {
	from, _ := x.struck()
	for i, p := range x.places {
		if p.bus == None || !p.part.Kind.IsSource() || i == from {
			continue
		}
		x.addSource(p)
	}
}

func (x *extractor) addSource(p place) {
	name := x.nameOf(p)
	s := side{bus: p.bus, system: p.system}
	star, ok := x.conductor(p.bus, 'N')
	if !ok {
		star = x.net.AddNode(x.unique(name + " star"))
		x.addResistor(x.unique(name+" star insulation"), star, circuit.Earth, leak)
		if p.system.Earthing == diagram.Impedance {
			x.addResistor(x.unique(name+" earthing resistor"), star, circuit.Earth, x.earthingOhms(p.part.ID, p.system))
		}
	}
	ohms := x.sourceOhms(p)
	xr := cmp.Or(p.part.Source.XR, usualSourceXR)
	r := ohms / math.Hypot(1, xr)
	for _, letter := range x.linesOf(s.bus) {
		node, _ := x.conductor(s.bus, letter)
		x.addCoil(x.unique(name+" "+string(letter)), node, star, max(r*xr/(2*math.Pi*60), jointInductance), r)
	}
}

// sourceOhms returns the impedance of a source from line to neutral.
func (x *extractor) sourceOhms(p place) float64 {
	u, data := max(p.system.LineToNeutral(), 1), p.part.Source
	switch {
	case data.FaultCurrent > 0:
		return u / max(data.FaultCurrent, 1)
	case p.part.Kind == diagram.Generator || data.Power > 0 && data.Reactance > 0:
		power, reactance := cmp.Or(data.Power, usualGenerator), cmp.Or(data.Reactance, usualReactance)
		if data.Power <= 0 || data.Reactance <= 0 {
			x.assume(p.part.ID, "is taken as 100 kVA with 15 % where the sheet does not say", "from memory")
		}
		return reactance / 100 * 3 * u * u / max(power, 1)
	}
	x.assume(p.part.ID, "its fault current is taken as 10 kA", "common practice, no source")
	return u / usualFaultCurrent
}

// bondLength is that of the conductor that joins neutral and earth, m, and
// bondArea its cross-section, m2 (common practice, no source).
const (
	bondLength = 0.5
	bondArea   = 25e-6
)

// electrodeOhms is the resistance between the earth electrode of a supply and
// that of the building in a TT system (from memory, wide).
const electrodeOhms = 20.0

// addBonds joins neutral and earth: at the boards that say so; where none in a
// zone does, at its beginning, as its earthing says.
func (x *extractor) addBonds() {
	bonded := map[diagram.End]bool{}
	for _, p := range x.places {
		if p.bus == None || !p.part.Kind.IsBoard() {
			continue
		}
		if p.part.Board.Bonded || p.system.Earthing == diagram.TNC {
			if x.bond(p, 'N') {
				bonded[p.node.Zone] = true
			}
		}
	}
	for _, p := range x.places {
		if p.bus != None && p.node.Zone == p.end && !bonded[p.end] {
			x.beginZone(p)
		}
	}
}

// beginZone earths the beginning of a zone.
func (x *extractor) beginZone(p place) {
	switch p.system.Earthing {
	case diagram.Solid, diagram.TNS, diagram.TNC, diagram.TNCS:
		if x.bond(p, 'N') {
			x.assume(p.part.ID, "neutral and earth are taken to be joined here, since no board that it feeds says so", "from the sheet")
		}
	case diagram.TT:
		if node, ok := x.conductor(p.bus, 'N'); ok {
			x.addResistor(x.unique(x.nameOf(p)+" electrodes"), node, circuit.Earth, electrodeOhms)
			x.assume(p.part.ID, "the electrodes of supply and building are taken to have 20 ohm together", "from memory, wide")
		}
	case diagram.Corner:
		x.bond(p, 'B')
	case diagram.Impedance:
		if node, ok := x.conductor(p.bus, 'N'); ok {
			x.addResistor(x.unique(x.nameOf(p)+" earthing resistor"), node, circuit.Earth, x.earthingOhms(p.part.ID, p.system))
		}
	}
}

// bond joins a conductor of a place to earth, where it has it.
func (x *extractor) bond(p place, letter byte) bool {
	node, ok := x.conductor(p.bus, letter)
	if ok {
		x.addCoil(x.unique(x.nameOf(p)+" bond"), node, circuit.Earth, bondInductance(), surgeResistance(bondArea, copperResistivity)*bondLength)
	}
	return ok
}
