package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// Least nominal discharge currents, A.
const (
	leastWithLightning = 20e3 // NFPA 780 clause 4.20, from memory; the reason why UL 1449 has 20 kA for type 1
	leastAtDwelling    = 10e3 // NFPA 70:2023 230.67(E), 215.18(E) and 225.42(E)
)

// nfpa780 is the standard on lightning protection systems.
const nfpa780 = "NFPA 780:2020 clause 4.20 " + recalled

// dischargeRules compares the discharge currents of a protector with what can
// come.
func dischargeRules(s *site) []analysis.Finding {
	if s.iec {
		return s.dischargeIEC()
	}
	if out := s.belowLightning(); out != nil {
		return out
	}
	return s.belowDwelling()
}

// dischargeFinding is a finding on the discharge current.
func dischargeFinding(severity analysis.Severity, what, why, remedy, source string) []analysis.Finding {
	return []analysis.Finding{{
		Severity: severity, Subject: analysis.SubjectDischarge, What: what, Why: why, Remedy: remedy, Source: source,
	}}
}

// otherCarries reports whether another protector on the part has at least that
// nominal discharge current.
func (s *site) otherCarries(least float64) bool {
	for _, p := range s.protectors {
		if p.ID != s.protector.ID && p.In >= least {
			return true
		}
	}
	return false
}

// belowLightning checks In at the service of a building with a lightning
// protection system. One that is too small is destroyed by what is sure to come: an
// error, as it is by IEC, though the clause is from memory.
func (s *site) belowLightning() []analysis.Finding {
	supply, ok := s.supply()
	if !ok || !s.atOrigin() || !supply.Exposure.Lightning.Present() || s.otherCarries(leastWithLightning) {
		return nil
	}
	const why = "the building has a lightning protection system: a strike to it drives part of its current out through the supply"
	switch in := s.protector.In; {
	case in <= 0:
		return dischargeFinding(analysis.Remark,
			fmt.Sprintf("The In of %s is not stated", s.on()),
			why,
			"read it off the nameplate: it must be at least 20 kA",
			nfpa780)
	case in < leastWithLightning:
		out := dischargeFinding(analysis.Error,
			fmt.Sprintf("%s has an In of %s, and the service of this building needs 20 kA", s.on(), kiloamperes(in)),
			why,
			"use one with an In of 20 kA",
			nfpa780)
		out[0].Working = s.currentWorking("In", in, leastWithLightning, nfpa780)
		return out
	}
	return nil
}

// belowDwelling checks In where NFPA 70 asks for a protector because people
// sleep or live there. One of type 3 is not the one that is asked for.
func (s *site) belowDwelling() []analysis.Finding {
	section, whom := s.askedFor()
	in := s.protector.In
	if section == "" || !atService(s.protector) || in >= leastAtDwelling {
		return nil
	}
	const why = "the protector that the code asks for there must withstand 10 kA in its listing test"
	source := s.nfpa(section)
	if in <= 0 {
		return dischargeFinding(analysis.Remark,
			fmt.Sprintf("The In of %s is not stated", s.on()),
			why,
			"read it off the nameplate: it must be at least 10 kA",
			source)
	}
	out := dischargeFinding(s.demanded(),
		fmt.Sprintf("%s has an In of %s, and for %s at least 10 kA is required", s.on(), kiloamperes(in), whom),
		why,
		"use one with an In of at least 10 kA",
		source)
	out[0].Working = s.currentWorking("In", in, leastAtDwelling, source)
	return out
}

// askedFor returns the section of NFPA 70 that asks for the protector with a
// least In, and for whom, or nothing. On a junction it is that of a board right
// beside it. Where another protector there has the current, nothing more is asked
// for.
func (s *site) askedFor() (section, whom string) {
	for _, node := range s.boardsHere() {
		board := s.place
		if node != s.node {
			part, _ := s.Document.Part(node.At.Part)
			board = s.placeOf(part)
		}
		if s.carriedAt(node, leastAtDwelling) || board.service() != nil && board.nextHave(carries(leastAtDwelling)) {
			continue
		}
		if section, whom := board.dwellingSection(); section != "" {
			return section, whom
		}
	}
	return "", ""
}

// boardsHere returns the board that the part is, or those that it is right
// beside.
func (s *site) boardsHere() []*analysis.Node {
	if s.part.Kind.IsBoard() {
		return []*analysis.Node{s.node}
	}
	return s.layout().besideBox[s.part.ID]
}

// carriedAt reports whether another protector on the board or right beside it
// has at least that nominal discharge current.
func (s *site) carriedAt(node *analysis.Node, least float64) bool {
	return slices.ContainsFunc(s.protectorsAt(node), func(p diagram.Protector) bool {
		return p.ID != s.protector.ID && carries(least)(p)
	})
}

// carries accepts a protector for a service or a board that has at least that
// nominal discharge current.
func carries(least float64) func(diagram.Protector) bool {
	return func(p diagram.Protector) bool { return atService(p) && p.In >= least }
}

// currentWorking sets a stated current beside the least.
func (s *site) currentWorking(name string, stated, least float64, source string) analysis.Working {
	return analysis.Working{
		{Label: name + " of " + s.name(), Result: stated, Unit: "A", Source: fromSheet},
		{Label: "least " + name, Result: least, Unit: "A", Source: source},
	}
}
