package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// bondRules looks at where the neutral is bonded to earth.
func bondRules(p *place) []analysis.Finding {
	if !p.system.Neutral || !takesBoard(p.node, p.part) {
		return nil
	}
	return append(secondBond(p), serviceBond(p)...)
}

// serviceBond reports service equipment without a bond on a solidly earthed
// system: NFPA 70 section 250.24(B) (from memory).
func serviceBond(p *place) []analysis.Finding {
	missing := p.part.Board.Service && !p.part.Board.Bonded && p.system.Earthing == diagram.Solid
	if p.iec || !missing || p.service() == nil || p.route().bond != nil {
		return nil
	}
	return p.about(analysis.Remark, analysis.SubjectEarthing,
		fmt.Sprintf("%s is service equipment, and its neutral is not shown bonded", p.name()),
		"a solidly grounded service bonds its neutral there; without the bond a surge appears between neutral and ground",
		"look for the main bonding jumper, and mark the bond here if it is there", p.nfpa("250.24"))
}

// secondBond reports a bond at a board below another one, or below the service
// disconnect, in the same transformer zone. A second board with the service
// disconnect is told only where the first one bonds: ahead of the disconnect more
// than one bond may be. Sections 250.24(A)(5), 250.142(B)
// and 250.32(B) of NFPA 70, and clause 543.4.3 of IEC 60364-5-54, are from
// memory.
func secondBond(p *place) []analysis.Finding {
	above := p.route().bond
	if !p.part.Board.Bonded || above == nil {
		return nil
	}
	bonds, _ := p.Document.Part(above.At.Part)
	if p.part.Board.Service && !(bonds.Board.Service && bonds.Board.Bonded) {
		return nil
	}
	severity, source := analysis.Warning, p.nfpa("250.24(A)(5)")
	remedy := "check whether the bond is there; if so, have a qualified person remove it"
	switch {
	case p.iec && (!separated(p.system.Earthing) || !bonds.Board.Bonded):
		return nil
	case p.iec:
		source = "IEC 60364-5-54:2011 clause 543.4.3 " + recalled
	case p.part.Board.Structure:
		severity, source = analysis.Remark, p.nfpa("250.32(B)")
		remedy = "check whether the feeder has an equipment grounding conductor: only an old feeder without one may have the bond"
	}
	if p.part.Board.Service {
		remedy = "check which of the two holds the service disconnect, and mark only that one; if the bond is at both, have a qualified person remove the lower one"
	}
	what := fmt.Sprintf("%s bonds the neutral a second time: %s above it does already", p.name(), p.Document.NameOf(above.At.Part))
	if !bonds.Board.Bonded {
		what = fmt.Sprintf("%s bonds the neutral, and the service disconnect is at %s above it", p.name(), p.Document.NameOf(above.At.Part))
	}
	return p.about(severity, analysis.SubjectEarthing, what,
		"through a second bond, neutral current returns over the protective conductors", remedy, source)
}

// separated reports whether neutral and protective conductor are apart behind
// the origin, so that they must not be joined again.
func separated(e diagram.Earthing) bool { return e == diagram.TNS || e == diagram.TNCS }
