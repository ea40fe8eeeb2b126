package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// routing is where it stands that leads are short and straight.
func (s *site) routing() string {
	return s.byRules(commonPractice, s.nfpaOn(leadRouting))
}

func (s *site) leadsSlack() bool { return s.protector.Leads.Coils > 0 }

func saySlack(s *site) said {
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("The leads of %s have %s of slack", s.on(), unit.CountOf(s.protector.Leads.Coils, "turn")),
		why:      "a turn is a coil: its inductance grows with the square of the turns, and with it the voltage that is let through",
		remedy:   "cut the slack off",
		source:   s.routing(),
		mend:     s.altered("cut the slack of the leads of … off", func(p *diagram.Protector) { p.Leads.Coils = 0 }),
	}
}

func (s *site) leadsBent() bool { return s.protector.Leads.Bends > 0 }

func sayBent(s *site) said {
	return said{
		severity: analysis.Remark,
		what:     "The leads of " + s.on() + " have " + unit.CountOf(s.protector.Leads.Bends, "sharp bend"),
		why:      "bends make leads longer and hold them apart",
		remedy:   "lay them straight, with wide curves where they must turn",
		source:   s.routing(),
	}
}

// earthLongest finds an earth lead that is longer than the others. What the
// others carry, it carries together.
func (s *site) earthLongest() (others float64, found bool) {
	leads := s.protector.Leads
	others = leads.Phase.Length
	if lead.UsesNeutral(&s.protector) {
		others = max(others, leads.Neutral.Length)
	}
	return others, lead.UsesEarth(&s.protector) && leads.Phase.Length > 0 && analysis.ToMicrometre(leads.Earth.Length-others) > longerBy
}

func sayEarthLongest(s *site, others float64) said {
	return said{
		severity: analysis.Remark,
		what:     fmt.Sprintf("The earth lead of %s is the longest, %s against %s", s.on(), s.leadText(s.protector.Leads.Earth.Length), s.leadText(others)),
		why:      "the surge current of all lines and of the neutral flows through it, so its length counts in every mode to earth",
		remedy:   "mount it nearer to the earth bar: if one lead must be longer, let it be another",
		source:   "Kirchhoff's current law",
	}
}

// inSteel finds an earth lead in a steel raceway that is not bonded to it at both
// ends.
func (s *site) inSteel() bool {
	return s.protector.Leads.Steel && !s.protector.Leads.SteelBonded
}

func sayInSteel(s *site) said {
	return said{
		severity: analysis.Warning,
		what:     "The earth lead of " + s.on() + " runs in a steel raceway that is not bonded at both ends",
		why:      "steel around a single conductor makes it a choke, unless the raceway carries current too",
		remedy:   "bond the raceway to the earth lead at both ends, or use one of plastic",
		source:   s.byRules(commonPractice, s.nfpaOn(steelRaceway)+"; NFPA 70 section 250.64(E) "+recalled),
		mend:     s.altered("bond the raceway of the earth lead of … at both ends", func(p *diagram.Protector) { p.Leads.SteelBonded = true }),
	}
}
