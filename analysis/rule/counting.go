package rule

import (
	"slices"

	"clampline/diagram"
)

// counting returns the protectors on a part that may meet a requirement: not
// those that their bus would destroy. The caller must not alter the slice.
func (s *sheet) counting(part diagram.ID) []diagram.Protector {
	if known, ok := s.counted[part]; ok {
		return known
	}
	all := s.protectorsOn(part)
	out := all
	if slices.ContainsFunc(all, func(p diagram.Protector) bool { return !s.bears(p) }) {
		out = slices.DeleteFunc(slices.Clone(all), func(p diagram.Protector) bool { return !s.bears(p) })
	}
	s.counted[part] = out
	return out
}

// bears reports whether a protector stands what its bus has for as long as it
// runs. What is not known speaks for it.
func (s *sheet) bears(protector diagram.Protector) bool {
	part, _ := s.Document.Part(protector.Bus)
	node := s.Topology.Node(part)
	if node == nil {
		return true
	}
	p := &place{sheet: s, part: part, system: s.proven(node)} // without the node: none of these rules needs the way to it
	here := p.site(protector)
	return !p.system.Known() || !here.misplaced() && !here.asksForLineVoltage() && len(modesOf(ratedShort)(here)) == 0
}
