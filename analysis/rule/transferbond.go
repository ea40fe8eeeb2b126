package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// transferBond compares a transfer switch with the bonds on its two sides: a
// generator whose neutral is switched is a source of its own and needs a bond;
// one whose neutral is not switched has that of the normal side. Where no board
// stands between the two, the earthing of the generator has to tell. Sections 250.6
// and 250.30 of NFPA 70, and clause 444.4.6 of IEC 60364-4-44, are from memory.
func transferBond(p *place) []analysis.Finding {
	if p.part.Kind != diagram.TransferSwitch || !p.system.Neutral || !holdsBond(p.system.Earthing) {
		return nil
	}
	normal, emergency := p.sideOf(diagram.Normal), p.sideOf(diagram.Emergency)
	switch {
	case normal.node == nil || emergency.node == nil || normal.node.Zone == emergency.node.Zone:
		return nil
	case !p.part.Transfer.SwitchesNeutral && normal.bonds != "" && emergency.bonds != "":
		return p.bondedTwice(normal, emergency)
	case p.part.Transfer.SwitchesNeutral && emergency.bonds == "" && p.fedByGenerator(emergency) && (emergency.board != "" || emergency.node.System.Earthing == ""):
		return p.bondMissing(emergency)
	}
	return nil
}

// holdsBond reports whether the neutral of such a system is bonded to earth at
// one place.
func holdsBond(e diagram.Earthing) bool { return e == diagram.Solid || separated(e) }

// side is one of the two sides from which a transfer switch takes its supply.
type side struct {
	node  *analysis.Node // the terminal; nil where nothing feeds it
	board diagram.ID     // the board nearest to it in its zone, or nothing
	bonds diagram.ID     // the board that bonds the neutral there, or nothing
}

func (p *place) sideOf(port diagram.Port) side {
	node := p.Topology.Nodes[diagram.End{Part: p.part.ID, Port: port}]
	if node == nil || node.Source == "" {
		return side{}
	}
	out := side{node: node}
	above := p.layout().spots[node].above
	if above.board != nil && above.board.Zone == node.Zone {
		out.board = above.board.At.Part
	}
	if above.bond != nil {
		if part, _ := p.Document.Part(above.bond.At.Part); part.Board.Bonded {
			out.bonds = part.ID
		}
	}
	return out
}

func (p *place) fedByGenerator(s side) bool {
	source, _ := p.Document.Part(s.node.Source)
	return source.Kind == diagram.Generator && s.node.System.Neutral
}

func (p *place) transferSource() string {
	if p.iec {
		return "IEC 60364-4-44:2007 clause 444.4.6 " + recalled
	}
	return "NFPA 70:" + string(p.nec()) + " sections 250.30 and 250.6 " + recalled
}

func (p *place) bondedTwice(normal, emergency side) []analysis.Finding {
	return p.about(analysis.Warning, analysis.SubjectEarthing,
		fmt.Sprintf("The neutral is bonded at %s and at %s, and %s does not switch it", p.Document.NameOf(normal.bonds), p.Document.NameOf(emergency.bonds), p.name()),
		"the neutral then has two bonds at a time, and part of its current returns over the protective conductors",
		fmt.Sprintf("check whether both bonds are there; if so, have a qualified person remove the one at %s, or use a transfer switch that switches the neutral", p.Document.NameOf(emergency.bonds)),
		p.transferSource())
}

func (p *place) bondMissing(emergency side) []analysis.Finding {
	state := "state the earthing of the generator if the bond is there"
	if emergency.board != "" {
		state = "state it at " + p.Document.NameOf(emergency.board) + " if it is there or in the generator itself"
	}
	return p.about(analysis.Warning, analysis.SubjectEarthing,
		fmt.Sprintf("%s switches the neutral, and no bond is shown between it and %s", p.name(), p.Document.NameOf(emergency.node.Source)),
		"while the generator runs, nothing holds its neutral to earth: an earth fault opens no breaker, and a surge appears between neutral and earth",
		"look for the bond of the generator; "+state+", else have a qualified person install it",
		p.transferSource())
}
