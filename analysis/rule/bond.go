package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// bondRules looks at where the neutral is bonded to earth.
func bondRules() []record[*place] {
	return where(func(p *place) bool { return p.system.Neutral && takesBoard(p.node, p.part) }, about(analysis.SubjectEarthing,
		tellsOne("earthing.second bond", (*place).secondBond, saySecondBond),
		tellsIf("earthing.service bond", (*place).serviceUnbonded, sayServiceUnbonded),
	)...)
}

// serviceUnbonded finds service equipment without a bond on a solidly earthed
// system: NFPA 70 section 250.24(B) (from memory).
func (p *place) serviceUnbonded() bool {
	missing := p.part.Board.Service && !p.part.Board.Bonded && p.system.Earthing == diagram.Solid
	return !p.iec && missing && p.service() != nil && p.route().bond == nil
}

func sayServiceUnbonded(p *place) said {
	return said{
		severity: analysis.Remark,
		what:     p.name() + " is service equipment, and its neutral is not shown bonded",
		why:      "a solidly grounded service bonds its neutral there; without the bond a surge appears between neutral and ground",
		remedy:   "look for the main bonding jumper, and mark the bond here if it is there",
		source:   p.nfpa("250.24"),
	}
}

// secondBond finds a bond at a board below another one, or below the service
// disconnect, in the same transformer zone, and returns that board. A second board
// with the service disconnect is told only where the first one bonds: ahead of the
// disconnect more than one bond may be. Sections 250.24(A)(5), 250.142(B)
// and 250.32(B) of NFPA 70, and clause 543.4.3 of IEC 60364-5-54, are from
// memory.
func (p *place) secondBond() (first diagram.Part, found bool) {
	above := p.route().bond
	if !p.part.Board.Bonded || above == nil {
		return diagram.Part{}, false
	}
	first, _ = p.Document.Part(above.At.Part)
	switch {
	case p.part.Board.Service && !(first.Board.Service && first.Board.Bonded):
		return first, false
	case p.iec:
		return first, separated(p.system.Earthing) && first.Board.Bonded
	}
	return first, true
}

func saySecondBond(p *place, first diagram.Part) said {
	out := said{
		severity: analysis.Warning, source: p.nfpa("250.24(A)(5)"),
		what:   fmt.Sprintf("%s bonds the neutral a second time: %s above it does already", p.name(), p.Document.NameOf(first.ID)),
		why:    "through a second bond, neutral current returns over the protective conductors",
		remedy: "check whether the bond is there; if so, have a qualified person remove it",
	}
	if !first.Board.Bonded {
		out.what = fmt.Sprintf("%s bonds the neutral, and the service disconnect is at %s above it", p.name(), p.Document.NameOf(first.ID))
	}
	switch {
	case p.iec:
		out.source = "IEC 60364-5-54:2011 clause 543.4.3 " + recalled
	case p.part.Board.Structure:
		out.severity, out.source = analysis.Remark, p.nfpa("250.32(B)")
		out.remedy = "check whether the feeder has an equipment grounding conductor: only an old feeder without one may have the bond"
	}
	if p.part.Board.Service {
		out.remedy = "check which of the two holds the service disconnect, and mark only that one; if the bond is at both, have a qualified person remove the lower one"
	}
	return out
}

// separated reports whether neutral and protective conductor are apart behind
// the origin, so that they must not be joined again.
func separated(e diagram.Earthing) bool { return e == diagram.TNS || e == diagram.TNCS }
