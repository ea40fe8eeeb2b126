package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// leadShape reports bends and slack.
func (s *site) leadShape() []analysis.Finding {
	source, leads := commonPractice, s.protector.Leads
	if !s.iec {
		source = s.nfpaOn(leadRouting)
	}
	var out []analysis.Finding
	if leads.Coils > 0 {
		out = leadFinding(analysis.Warning,
			fmt.Sprintf("The leads of %s have %s of slack", s.on(), countOf(leads.Coils, "turn")),
			"a turn is a coil: its inductance grows with the square of the turns, and with it the voltage that is let through",
			"cut the slack off",
			source)
		out[0].Mend = analysis.MendProtector(s.protector.ID, "cut the slack of the leads of … off", s.name(),
			func(p *diagram.Protector) { p.Leads.Coils = 0 })
	}
	if leads.Bends > 0 {
		out = append(out, leadFinding(analysis.Remark,
			fmt.Sprintf("The leads of %s have %s", s.on(), countOf(leads.Bends, "sharp bend")),
			"bends make leads longer and hold them apart",
			"lay them straight, with wide curves where they must turn",
			source)...)
	}
	return out
}

// earthLongest tells of an earth lead that is longer than the others. What the
// others carry, it carries together.
func (s *site) earthLongest() []analysis.Finding {
	leads := s.protector.Leads
	others := leads.Phase.Length
	if usesNeutral(s.protector) {
		others = max(others, leads.Neutral.Length)
	}
	if !usesEarth(s.protector) || leads.Phase.Length <= 0 || analysis.ToMicrometre(leads.Earth.Length-others) <= longerBy {
		return nil
	}
	return leadFinding(analysis.Remark,
		fmt.Sprintf("The earth lead of %s is the longest, %s against %s", s.on(), s.leadText(leads.Earth.Length), s.leadText(others)),
		"the surge current of all lines and of the neutral flows through it, so its length counts in every mode to earth",
		"mount it nearer to the earth bar: if one lead must be longer, let it be another",
		"Kirchhoff's current law")
}

// inSteel reports an earth lead in a steel raceway that is not bonded to it at
// both ends.
func (s *site) inSteel() []analysis.Finding {
	if !s.protector.Leads.Steel || s.protector.Leads.SteelBonded {
		return nil
	}
	source := commonPractice
	if !s.iec {
		source = s.nfpaOn(steelRaceway) + "; NFPA 70 section 250.64(E) " + recalled
	}
	out := leadFinding(analysis.Warning,
		fmt.Sprintf("The earth lead of %s runs in a steel raceway that is not bonded at both ends", s.on()),
		"steel around a single conductor makes it a choke, unless the raceway carries current too",
		"bond the raceway to the earth lead at both ends, or use one of plastic",
		source)
	out[0].Mend = analysis.MendProtector(s.protector.ID, "bond the raceway of the earth lead of … at both ends", s.name(),
		func(p *diagram.Protector) { p.Leads.SteelBonded = true })
	return out
}
