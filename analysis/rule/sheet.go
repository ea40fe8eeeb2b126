package rule

import (
	"cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// sheet is a document with what every rule needs of it.
type sheet struct {
	Input
	codes    diagram.Codes
	iec      bool // the rules of IEC count, not those of North America
	asFound  bool // the plan is the first one, the building as found
	index    *diagram.Index
	critical map[diagram.ID]bool                // boards and loads that are critical, or that feed what is
	laid     *layout                            // made by layout where a rule asks for it
	tried    *diagram.Protector                 // taken to be the only one on its part; nil where nothing is tried
	counted  map[diagram.ID][]diagram.Protector // by part, where a rule has asked

	onSite      []record[*site] // the tables, made once for all protectors
	onNameplate []record[nameplate]
}

// place is one part with what stands on it.
type place struct {
	*sheet
	part       diagram.Part
	node       *analysis.Node      // nil only in Fits
	system     diagram.System      // of the node, with the earthing that a bond proves; zero where it is not known
	protectors []diagram.Protector // on the part, of the plan
	critical   bool
}

// site is one protector on its place.
type site struct {
	*place
	protector diagram.Protector
	reseated  bool // its conductors are others than its nameplate names, as analysis.Seated has it
}

// site returns a protector as it works on the place.
func (p *place) site(protector diagram.Protector) *site {
	seated := analysis.Seated(protector, p.system)
	return &site{place: p, protector: seated, reseated: seated.System != protector.System}
}

func newSheet(in Input) *sheet { return sheetOn(in, topologyOnNormal(in)) }

// sheetOn is newSheet with the topology on normal.
func sheetOn(in Input, normal *analysis.Topology) *sheet {
	in.Topology = normal
	codes := in.Document.Info().Codes
	s := &sheet{Input: in, codes: codes, iec: in.Document.FollowsIEC()}
	s.asFound = in.Document.Plans()[0].ID == in.Plan // a document has at least one plan
	s.index, s.counted = diagram.NewIndex(in.Document, in.Plan), map[diagram.ID][]diagram.Protector{}
	s.critical = analysis.CriticalParts(in.Document, in.Topology)
	s.onSite, s.onNameplate = siteRules(), nameplateRules()
	return s
}

// placeOf returns the place of a part, or nil for a note.
func (s *sheet) placeOf(part diagram.Part) *place {
	node := s.Topology.Node(part)
	if node == nil {
		return nil
	}
	return &place{
		sheet: s, part: part, node: node, system: s.proven(node),
		protectors: s.index.ProtectorsOn(part.ID), critical: s.critical[part.ID],
	}
}

// name returns what a person calls the part.
func (p *place) name() string { return cmp.Or(p.part.Name, string(p.part.ID)) }

// name returns what a person calls the protector.
func (s *site) name() string {
	return cmp.Or(s.protector.Name, string(s.protector.ID), "the protector")
}

// on returns the protector with its place: "SPD-1 on House panel".
func (s *site) on() string { return s.name() + " on " + s.place.name() }

// fault returns the fault current at the part, and whether it is known.
func (p *place) fault() (analysis.Fault, bool) {
	if p.node == nil {
		return analysis.Fault{}, false
	}
	f, ok := p.Faults[p.node.At]
	return f, ok && f.Known
}

// supply returns the supply that feeds the part, or the zero value where there
// is none or where it is a generator.
func (p *place) supply() (diagram.Part, bool) {
	if p.node == nil {
		return diagram.Part{}, false
	}
	part, ok := p.Document.Part(p.node.Source)
	return part, ok && part.Kind == diagram.Supply
}
