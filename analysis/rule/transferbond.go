package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// transferRules compare a transfer switch with the bonds on its two sides: a
// generator whose neutral is switched is a source of its own and needs a bond;
// one whose neutral is not switched has that of the normal side. Where no board
// stands between the two, the earthing of the generator has to tell. Sections 250.6
// and 250.30 of NFPA 70, and clause 444.4.6 of IEC 60364-4-44, are from memory.
func transferRules() []record[*place] {
	return where((*place).transfersBond, about(analysis.SubjectEarthing,
		tellsOne("earthing.transfer bonded twice", (*place).bondedTwice, sayBondedTwice),
		tellsOne("earthing.generator bond", (*place).generatorUnbonded, sayGeneratorUnbonded),
	)...)
}

// transfersBond reports whether the part is a transfer switch between two sources
// of a system whose neutral is bonded.
func (p *place) transfersBond() bool {
	if p.part.Kind != diagram.TransferSwitch || !p.system.Neutral || !holdsBond(p.system.Earthing) {
		return false
	}
	s := p.sides()
	return s.normal.node != nil && s.emergency.node != nil && s.normal.node.Zone != s.emergency.node.Zone
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

// sides are both of them.
type sides struct{ normal, emergency side }

func (p *place) sides() sides { return sides{p.sideOf(diagram.Normal), p.sideOf(diagram.Emergency)} }

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
	return p.byRules("IEC 60364-4-44:2007 clause 444.4.6 "+recalled, "NFPA 70:"+string(p.nec())+" sections 250.30 and 250.6 "+recalled)
}

// bondedTwice finds a bond on either side of a neutral that is not switched.
func (p *place) bondedTwice() (sides, bool) {
	s := p.sides()
	return s, !p.part.Transfer.SwitchesNeutral && s.normal.bonds != "" && s.emergency.bonds != ""
}

func sayBondedTwice(p *place, s sides) said {
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("The neutral is bonded at %s and at %s, and %s does not switch it", p.Document.NameOf(s.normal.bonds), p.Document.NameOf(s.emergency.bonds), p.name()),
		why:      "the neutral then has two bonds at a time, and part of its current returns over the protective conductors",
		remedy:   "check whether both bonds are there; if so, have a qualified person remove the one at " + p.Document.NameOf(s.emergency.bonds) + ", or use a transfer switch that switches the neutral",
		source:   p.transferSource(),
	}
}

// generatorUnbonded finds a generator whose neutral is switched and nowhere bonded.
func (p *place) generatorUnbonded() (side, bool) {
	s := p.sideOf(diagram.Emergency)
	return s, p.part.Transfer.SwitchesNeutral && s.bonds == "" && p.fedByGenerator(s) && (s.board != "" || s.node.System.Earthing == "")
}

func sayGeneratorUnbonded(p *place, s side) said {
	state := "state the earthing of the generator if the bond is there"
	if s.board != "" {
		state = "state it at " + p.Document.NameOf(s.board) + " if it is there or in the generator itself"
	}
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("%s switches the neutral, and no bond is shown between it and %s", p.name(), p.Document.NameOf(s.node.Source)),
		why:      "while the generator runs, nothing holds its neutral to earth: an earth fault opens no breaker, and a surge appears between neutral and earth",
		remedy:   "look for the bond of the generator; " + state + ", else have a qualified person install it",
		source:   p.transferSource(),
	}
}
