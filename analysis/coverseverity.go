package analysis

import "clampline/diagram"

// Stakes is what hangs on each part, by which the severity of a finding on its
// cover goes. It is found once for a document.
type Stakes struct {
	topology               *Topology
	critical, used, stated map[diagram.ID]bool // parts, with all that they are fed through
	spared                 map[diagram.ID]bool // supplies of which the building is known to need no protection
}

// NewStakes looks at every part of a document, with what feeds it.
func NewStakes(doc *diagram.Document, topology *Topology) *Stakes {
	s := &Stakes{
		topology: topology,
		critical: CriticalParts(doc, topology),
		used:     feeding(doc, topology, func(p diagram.Part) bool { return p.Use != "" }),
		stated:   feeding(doc, topology, func(p diagram.Part) bool { return p.Withstand.Kind != "" }),
		spared:   map[diagram.ID]bool{},
	}
	if !doc.FollowsIEC() { // the risk level is of IEC 60364
		return s
	}
	for part := range doc.Parts() {
		s.spared[part.ID] = part.Kind == diagram.Supply && notRequired(part.Exposure, doc.Info().Codes.Risk)
	}
	return s
}

// notRequired reports whether a building is known to need no protection: whom it
// serves is stated, and neither that nor the risk level asks for it.
func notRequired(e diagram.Exposure, method diagram.RiskMethod) bool {
	return e.Occupancy != "" && !NeedsProtection(e, method).Needed
}

// CoverSeverity returns the severity of a finding on the cover of a part. What
// more comes to than it stands is an error: it is destroyed. That no protector
// reaches it is one where something hangs on it that is critical, or of which the
// use or the withstand is stated, unless the building is known to need no
// protection (IEC 60364-4-44 clause 443).
func (s *Stakes) CoverSeverity(part diagram.Part, verdict Verdict) Severity {
	switch verdict {
	case Exceeded:
		return Error
	case Unknown:
		return Warning
	case Unreached:
		return s.bare(part)
	}
	return Remark
}

// CoverFinding is the finding on the cover of a part that is not held, on
// either basis: worst is the level that decides.
func (s *Stakes) CoverFinding(part diagram.Part, worst Level, remedy string) Finding {
	return Finding{
		Rule: "cover.not held", Facts: worst, Severity: s.CoverSeverity(part, worst.Verdict), Subject: SubjectCover, Records: []diagram.ID{part.ID},
		What: nameOf(&part) + ": " + VerdictText(worst), Why: worst.Why, Remedy: remedy, Critical: s.critical[part.ID],
	}
}

func (s *Stakes) bare(part diagram.Part) Severity {
	matters, spared := s.critical[part.ID] || s.used[part.ID], false
	if node := s.topology.Node(part); node != nil {
		spared = s.spared[node.Source]
	}
	switch {
	case spared && !matters:
		return Remark
	case spared || !matters && !s.stated[part.ID]:
		return Warning
	}
	return Error
}
