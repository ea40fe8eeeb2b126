package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// Least nominal discharge currents, A.
const (
	leastWithLightning = 20e3 // NFPA 780 clause 4.20, from memory; the reason why UL 1449 has 20 kA for type 1
	leastAtDwelling    = 10e3 // NFPA 70:2023 230.67(E) and 215.18
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
// protection system.
func (s *site) belowLightning() []analysis.Finding {
	supply, ok := s.supply()
	if !ok || !s.atOrigin() || !supply.Exposure.Lightning.Present() || s.otherCarries(leastWithLightning) {
		return nil
	}
	const why = "the building has a lightning protection system: a flash to it drives part of its current out through the supply"
	switch in := s.protector.In; {
	case in <= 0:
		return dischargeFinding(analysis.Remark,
			fmt.Sprintf("The In of %s is not stated", s.on()),
			why,
			"read it off the nameplate: it must be at least 20 kA",
			nfpa780)
	case in < leastWithLightning:
		out := dischargeFinding(analysis.Error,
			fmt.Sprintf("%s has an In of %s, and the service of this building asks for 20 kA", s.on(), kiloamperes(in)),
			why,
			"take one with an In of 20 kA",
			nfpa780)
		out[0].Working = s.currentWorking("In", in, leastWithLightning, nfpa780)
		return out
	}
	return nil
}

// belowDwelling checks In where NFPA 70 asks for a protector because people
// sleep or live there.
func (s *site) belowDwelling() []analysis.Finding {
	section, whom := s.dwellingSection()
	in := s.protector.In
	if section == "" || in <= 0 || in >= leastAtDwelling || s.otherCarries(leastAtDwelling) {
		return nil
	}
	source := s.nfpa(section)
	out := dischargeFinding(analysis.Error,
		fmt.Sprintf("%s has an In of %s, and for %s 10 kA are asked for", s.on(), kiloamperes(in), whom),
		"the protector that the code asks for there must stand 10 kA in its listing test",
		"take one with an In of at least 10 kA",
		source)
	out[0].Working = s.currentWorking("In", in, leastAtDwelling, source)
	return out
}

// dwellingSection returns the section of NFPA 70 that asks for the protector,
// and for whom, or nothing. Only the edition of 2023 names a least In. One of
// type 3 is not the one that is asked for.
func (s *site) dwellingSection() (section, whom string) {
	if s.nec() != diagram.NEC2023 || !s.part.Kind.IsBoard() || s.protector.Type == diagram.Type3 {
		return "", ""
	}
	supply, ok := s.supply()
	occupancy := supply.Exposure.Occupancy
	switch {
	case ok && s.atOrigin() && occupancy == diagram.Dwelling:
		return "230.67(E)", "a service to dwelling units"
	case ok && s.atOrigin() && occupancy == diagram.SleepingRooms:
		return "230.67(E)", "a service to sleeping rooms"
	case s.part.Use == diagram.DwellingUnitUse:
		return "215.18", "a feeder to a dwelling unit"
	case s.part.Use == diagram.SleepingRoomsUse:
		return "215.18", "a feeder to sleeping rooms"
	}
	return "", ""
}

// currentWorking sets a stated current beside the least.
func (s *site) currentWorking(name string, stated, least float64, source string) analysis.Working {
	return analysis.Working{
		{Label: name + " of " + s.name(), Result: stated, Unit: "A", Source: fromSheet},
		{Label: "least " + name, Result: least, Unit: "A", Source: source},
	}
}
