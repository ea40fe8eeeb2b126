package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// demand returns how grave it is that a requirement is not met which was read in a
// public text: an error where it surely counts. On the building as found it is a
// warning, and says why: NFPA 70 and IEC 60364 count for new work and for what is
// replaced, and the building may be older than the edition.
func (s *sheet) demand(sure bool, out said) said {
	switch {
	case !sure:
		out.severity = analysis.Warning
	case s.asFound:
		out.severity = analysis.Warning
		out.why += "; what is found may be older than the rule, so that it is a warning here and an error in a plan of new work"
	default:
		out.severity = analysis.Error
	}
	return out
}

// ifItApplies ends the reason of each requirement: the sheet cannot know what
// is new and what was there before.
const ifItApplies = "; check whether it applies to your building"

// requiredRules says where NFPA 70 and NFPA 780 ask for a protector that is
// missing. Whether one that is there is strong enough is a matter of
// dischargeRules. The sections, and the editions from which on they count,
// are those that public summaries of the code give; which of them are from
// memory is said at each.
func requiredRules() []record[*place] {
	return where((*place).byNFPA, about(analysis.SubjectRequired, slices.Concat(dwellingRules(), lightningRules(), useRules())...)...)
}

func (p *place) byNFPA() bool { return !p.iec }
func (p *place) byIEC() bool  { return p.iec }

// missing completes what is said of a requirement that is not met: where a protector
// that it accepts is missing, the first of which is what it is about.
func (p *place) missing(s said, accept func(diagram.Protector) bool, hosts ...*analysis.Node) said {
	s.why += ifItApplies
	s.records, s.critical = p.hosts(hosts)
	s.mend = p.placeUsual(accept, nil, hosts...)
	return s
}

// hosts returns the parts of the nodes, and whether one of them is critical.
func (s *sheet) hosts(nodes []*analysis.Node) (parts []diagram.ID, critical bool) {
	for _, node := range nodes {
		parts = append(parts, node.At.Part)
		critical = critical || s.critical[node.At.Part]
	}
	return parts, critical
}

// namesOf returns what a person calls the parts of the nodes.
func (s *sheet) namesOf(nodes []*analysis.Node) []string {
	var out []string
	for _, node := range nodes {
		out = append(out, s.Document.NameOf(node.At.Part))
	}
	return out
}

// anyProtector accepts whatever is connected there: the section names no type.
// One of which no mode is stated is not known to do anything.
func anyProtector(protector diagram.Protector) bool {
	return slices.ContainsFunc(protector.Modes[:], func(r diagram.ModeRating) bool { return r.Connected })
}

// atService accepts what is made for a service or a distribution board: type 1
// or 2. Whether it suits the very place is a matter of typeRules.
func atService(protector diagram.Protector) bool {
	return anyProtector(protector) && !forPointOfUse(protector.Type)
}

// protected reports whether anything that counts is connected on the part.
func (p *place) protected() bool { return slices.ContainsFunc(p.counting(p.part.ID), anyProtector) }

// protectedAt reports whether a protector of type 1 or 2 is on the board, or
// right beside it on the side of the supply.
func (s *sheet) protectedAt(node *analysis.Node) bool {
	return slices.ContainsFunc(s.protectorsAt(node), atService)
}

// protectorsAt returns the protectors that count on the board, and those right
// beside it on the side of the supply.
func (s *sheet) protectorsAt(node *analysis.Node) []diagram.Protector {
	own := s.counting(node.At.Part)
	return append(own[:len(own):len(own)], s.counting(s.layout().spots[node].above.box)...)
}
