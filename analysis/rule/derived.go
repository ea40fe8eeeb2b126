package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// derivedBond reports a separately derived system whose neutral nothing on the
// sheet bonds, and of which the sheet does not say that it stays ungrounded: NFPA 70
// section 250.30 (from memory). The bond stands at the source or at the first
// disconnect, so that a system said to be solidly grounded may have it in the
// source, where the sheet has no place for it. A generator behind a transfer switch
// is a matter of transferBond.
func derivedBond(p *place) []analysis.Finding {
	zone, ok := p.derived()
	if p.iec || !ok {
		return nil
	}
	node := p.Topology.Nodes[zone]
	if node == nil || !node.System.Neutral || node.System.Voltage > lowVoltage || p.bondedZone(zone) {
		return nil
	}
	below := p.layout().zones[zone]
	switch node.System.Earthing {
	case "":
		return p.notBonded(analysis.Warning, below.board, "it is not said to be ungrounded, either")
	case diagram.Solid:
		if below.board != "" {
			return p.notBonded(analysis.Remark, below.board, "it is said to be solidly grounded")
		}
	}
	return nil
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

func (p *place) notBonded(severity analysis.Severity, board diagram.ID, but string) []analysis.Finding {
	what, remedy := "the secondary of "+p.name(), "state its earthing; if it is earthed and the bond is missing, have a qualified person install it"
	if p.part.Kind == diagram.Generator {
		what = "the neutral of " + p.name()
	}
	if board != "" {
		remedy = fmt.Sprintf("look for the system bonding jumper, in %s itself or at %s: mark the bond at %s if it is there, else have a qualified person install it; if the system is ungrounded, say so at %s",
			p.name(), p.Document.NameOf(board), p.Document.NameOf(board), p.name())
	}
	return p.about(severity, analysis.SubjectEarthing,
		fmt.Sprintf("No bond is shown for %s, a separately derived system, and %s", what, but),
		"without the bond nothing holds its neutral to ground: a ground fault opens no breaker, and a surge appears between neutral and ground",
		remedy, p.nfpa("250.30"))
}
