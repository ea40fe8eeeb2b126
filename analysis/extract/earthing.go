package extract

import (
	"cmp"
	"slices"

	"clampline/analysis/circuit"
	"clampline/analysis/conductor"
	"clampline/analysis/protector"
	"clampline/diagram"
)

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
// zone does, at its service board if the earthing parts them there, or else at
// its beginning, as its earthing says. Sources with one neutral are one zone here.
func (x *extractor) addBonds() {
	bonded := map[diagram.End]bool{}
	for _, p := range x.places {
		if p.bus != None && p.isBonded() && x.bond(p, 'N') {
			bonded[p.node.Zone] = true
		}
	}
	for _, p := range x.places {
		if p.bus != None && p.part.Board.Service && !bonded[p.node.Zone] && bondsAtService(p.system) && x.bond(p, 'N') {
			bonded[p.node.Zone] = true
			x.assume(p.part.ID, "neutral and earth are taken to be joined here, at the service, since no board says so", "from the sheet")
		}
	}
	x.shareBonds(bonded)
	for _, p := range x.places {
		if p.bus != None && p.node.Zone == p.end && !bonded[p.end] {
			x.beginZone(p)
		}
	}
}

// isBonded reports whether the place is a board at which neutral and earth are
// joined by what the sheet says.
func (p place) isBonded() bool {
	return p.part.Kind.IsBoard() && (p.part.Board.Bonded || p.system.Earthing == diagram.TNC)
}

// holdsByBond reports whether the earthing joins neutral and earth by a
// conductor.
func holdsByBond(s diagram.System) bool {
	return s.Earthing.HoldsNeutral() && s.Earthing != diagram.TT
}

// bondsAtService reports whether neutral and earth are one up to the service
// and part there. In TN-S they part at the source already (IEC 60364-1:2005,
// 312.2.1, from memory).
func bondsAtService(s diagram.System) bool { return holdsByBond(s) && s.Earthing != diagram.TNS }

// shareBonds counts a zone as bonded whose neutral goes, unswitched, through a
// transfer switch to one that is: a source there must not be bonded again (NEC
// 250.30 on separately derived systems, from memory).
func (x *extractor) shareBonds(bonded map[diagram.End]bool) {
	for part := range x.Document.Parts() {
		if part.Kind != diagram.TransferSwitch || part.Transfer.SwitchesNeutral {
			continue
		}
		var zones []diagram.End
		for _, port := range part.Kind.Ports() {
			zones = append(zones, x.Topology.Nodes[diagram.End{Part: part.ID, Port: port}].Zone)
		}
		if slices.ContainsFunc(zones, func(z diagram.End) bool { return bonded[z] }) {
			for _, z := range zones {
				bonded[z] = true
			}
		}
	}
}

// beginZone earths the beginning of a zone whose neutral or line B is there to
// be earthed. A star point without a neutral is earthed where it is made.
func (x *extractor) beginZone(p place) {
	if p.system.Earthing == diagram.Corner {
		x.bond(p, 'B')
		return
	}
	if node, ok := x.conductor(p.bus, 'N'); ok {
		x.earth(p, node)
	}
}

// earth joins the star point of a place to earth as its system is earthed.
func (x *extractor) earth(p place, star circuit.Node) {
	switch earthing := p.system.Earthing; {
	case holdsByBond(p.system):
		x.bondNode(p, star)
		x.assume(p.part.ID, "its neutral or star point is taken to be joined to earth here, since no board that it feeds says so", "from the sheet")
	case earthing == diagram.TT:
		x.addResistor(x.unique(x.nameOf(p)+" electrodes"), star, circuit.Earth, electrodeOhms)
		x.assume(p.part.ID, "the electrodes of supply and building are taken to have 20\u00a0Ω together", "from memory, wide")
	case earthing == diagram.Impedance:
		x.addResistor(x.unique(x.nameOf(p)+" earthing resistor"), star, circuit.Earth, x.earthingOhms(p.part.ID, p.system))
	case earthing == "":
		x.assume(p.part.ID, "its earthing is not known: its neutral or star point is taken to be apart from earth, the worse case", "from the sheet")
	}
}

// bond joins a conductor of a place to earth, where it has it.
func (x *extractor) bond(p place, letter byte) bool {
	node, ok := x.conductor(p.bus, letter)
	if ok {
		x.bondNode(p, node)
	}
	return ok
}

func (x *extractor) bondNode(p place, node circuit.Node) {
	x.addInductor(x.unique(x.nameOf(p)+" bond"), node, circuit.Earth, bondInductance(), protector.SurgeResistance(bondArea, conductor.Copper, x.tone)*bondLength)
}

// earthingOhms returns the resistor of an impedance-earthed star point: one
// that lets 5 A flow in a fault (common practice, no source).
func (x *extractor) earthingOhms(record diagram.ID, s diagram.System) float64 {
	x.assume(record, "its earthing resistor is taken to let 5 A flow", "common practice, no source")
	return cmp.Or(s.LineToNeutral(), 1) / 5
}
