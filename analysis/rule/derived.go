package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// derivedRules is NFPA 70 section 250.30 (from memory) on a separately derived
// system.
func derivedRules() []record[*place] {
	return where((*place).byNFPA, about(analysis.SubjectEarthing, tellsOne("earthing.derived bond", (*place).derivedUnbonded, sayDerivedUnbonded))...)
}

// unbonded is a separately derived system whose neutral nothing bonds.
type unbonded struct {
	earthing diagram.Earthing // as stated: nothing, or solid
	board    diagram.ID       // the first one of it, or nothing
}

// derivedUnbonded finds a separately derived system whose neutral nothing on the
// sheet bonds, and of which the sheet does not say that it stays ungrounded. The bond
// stands at the source or at the first disconnect, so that a system said to be
// solidly grounded may have it in the source, where the sheet has no place for it. A
// generator behind a transfer switch is a matter of transferRules.
func (p *place) derivedUnbonded() (unbonded, bool) {
	zone, ok := p.derived()
	node := p.Topology.Nodes[zone]
	if !ok || node == nil || !node.System.Neutral || node.System.Voltage > lowVoltage || p.bondedZone(zone) {
		return unbonded{}, false
	}
	out := unbonded{node.System.Earthing, p.layout().zones[zone].board}
	return out, out.earthing == "" || out.earthing == diagram.Solid && out.board != ""
}

// derived returns the terminal at which the part begins a separately derived
// system, and whether it does.
func (p *place) derived() (diagram.End, bool) {
	switch p.part.Kind {
	case diagram.Transformer:
		return diagram.End{Part: p.part.ID, Port: diagram.Secondary}, !p.part.Transformer.Auto
	case diagram.Generator:
		zone := diagram.End{Part: p.part.ID}
		return zone, len(p.layout().zones[zone].switches) == 0
	}
	return diagram.End{}, false
}

// zone is what lies between a source or transformer and the next ones below.
type zone struct {
	board    diagram.ID   // the first one, or nothing
	bonded   bool         // a board bonds the neutral, or holds the service disconnect, which does
	switches []diagram.ID // the transfer switches to which it leads
}

// noteZone writes down what a terminal adds to its zone.
func (l *layout) noteZone(node *analysis.Node, part diagram.Part) {
	z := l.zones[node.Zone]
	if takesBoard(node, part) {
		if z.board == "" {
			z.board = part.ID
		}
		z.bonded = z.bonded || part.Board.Bonded || part.Board.Service
	}
	if part.Kind == diagram.TransferSwitch && (node.At.Port == diagram.Normal || node.At.Port == diagram.Emergency) {
		z.switches = append(z.switches, part.ID)
	}
	l.zones[node.Zone] = z
}

// bondedZone reports whether the neutral of a zone is bonded: there, or beyond a
// transfer switch that leaves it connected.
func (p *place) bondedZone(of diagram.End) bool {
	z := p.layout().zones[of]
	if z.bonded {
		return true
	}
	for _, id := range z.switches {
		part, _ := p.Document.Part(id)
		for _, port := range []diagram.Port{diagram.Normal, diagram.Emergency} {
			side := p.Topology.Nodes[diagram.End{Part: id, Port: port}]
			if side != nil && !part.Transfer.SwitchesNeutral && p.layout().zones[side.Zone].bonded {
				return true
			}
		}
	}
	return false
}

func sayDerivedUnbonded(p *place, u unbonded) said {
	whose, remedy := "the secondary of "+p.name(), "state its earthing; if it is earthed and the bond is missing, have a qualified person install it"
	if p.part.Kind == diagram.Generator {
		whose = "the neutral of " + p.name()
	}
	if board := p.Document.NameOf(u.board); u.board != "" {
		remedy = fmt.Sprintf("look for the system bonding jumper, in %s itself or at %s: mark the bond at %s if it is there, else have a qualified person install it; if the system is ungrounded, say so at %s",
			p.name(), board, board, p.name())
	}
	severity, but := analysis.Warning, "it is not said to be ungrounded, either"
	if u.earthing == diagram.Solid {
		severity, but = analysis.Remark, "it is said to be solidly grounded"
	}
	return said{
		severity: severity,
		what:     fmt.Sprintf("No bond is shown for %s, a separately derived system, and %s", whose, but),
		why:      "without the bond nothing holds its neutral to ground: a ground fault opens no breaker, and a surge appears between neutral and ground",
		remedy:   remedy,
		source:   p.nfpa("250.30"),
	}
}
