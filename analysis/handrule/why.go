package handrule

import (
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

func nameOr(name string, id diagram.ID) string {
	if name == "" {
		return string(id)
	}
	return name
}

func nameOf(part *diagram.Part) string { return nameOr(part.Name, part.ID) }

// why says in one sentence what decides an outcome, or why nothing does.
func (s *solver) why(p *place, o *outcome) string {
	switch o.reason {
	case analysis.Bonded:
		return "Neutral and earth are joined at " + nameOf(p.part)
	case analysis.NearBond:
		return "The bond of neutral and earth at " + nameOf(s.places[o.host].part) + " limits it; the voltage rises along the wiring"
	case analysis.NoProtector:
		return "There is no protector at " + nameOf(p.part) + " or between it and the supply"
	}
	host := &s.places[o.host]
	placed := nameOr(o.who.Name, o.who.ID) + " on " + nameOf(host.part)
	if o.cover != nil {
		return s.limits(placed, o)
	}
	switch o.reason {
	case analysis.PastTransformer:
		return "Protection by " + placed + " stops at " + titled("transformer", o.edge.name)
	case analysis.PastSwitch:
		return "Protection by " + placed + " stops at the open switch at " + o.edge.name
	case analysis.Downstream:
		if s.isBelow(o.host, p) {
			return placed + " is too far downstream to cover it"
		}
		return placed + " is on another branch and does not cover it"
	}
	return placed + " does not count: " + objection(o.who, o.mode, o.reason, host)
}

// limits says how a protector at a place holds the voltage.
func (s *solver) limits(placed string, o *outcome) string {
	if c := o.cover; c.below() && o.reason != analysis.JustBelow {
		placed += ", on another branch " + farText(c, c.run) + " below " + nameOf(s.places[c.from].part)
		return placed + ", limits it there" + series(c) + "; the voltage rises along the wiring from there"
	}
	switch o.reason {
	case analysis.JustBelow:
		return placed + ", " + farText(o.cover, o.cover.run) + " downstream, limits it" + series(o.cover) + "; that much feeder counts like length of its leads"
	case analysis.LongLeads:
		return placed + " limits it" + series(o.cover) + ", and the leads add to the rating"
	case analysis.NearProtector:
		return placed + ", close upstream, limits it" + series(o.cover)
	case analysis.Distance:
		return placed + ", far upstream, limits it" + series(o.cover) + "; the voltage rises along the wiring"
	}
	return placed + " limits it" + series(o.cover)
}

// isBelow reports whether a place hangs on another.
func (s *solver) isBelow(i int, above *place) bool {
	for ; i != none; i = s.places[i].up {
		if s.places[i].part == above.part {
			return true
		}
	}
	return false
}

// titled puts a word before a name that does not hold it already.
func titled(word, name string) string {
	if strings.Contains(strings.ToLower(name), strings.ToLower(word)) {
		return name
	}
	return word + " " + name
}

// series adds by which modes a mode is spanned that has no rating of its own.
func series(c *cover) string {
	switch {
	case c.direct():
		return ""
	case c.bond:
		return " by " + c.first.mode.String() + " and the bond of neutral and earth"
	}
	return " by " + c.first.mode.String() + " and " + c.second.mode.String() + " in series"
}

// objection says why a protector does not count in a mode.
func objection(p *diagram.Protector, mode diagram.Mode, reason analysis.Reason, host *place) string {
	bus := host.node.System
	switch reason {
	case analysis.WrongVoltage:
		if p.System.Known() && !analysis.SameNominal(p.System, bus) {
			return "it is made for " + p.System.String() + ", not for " + bus.String()
		}
		return "its continuous voltage " + mode.String() + " is too low for " + bus.String()
	case analysis.WrongEarthing:
		return "its continuous voltage L-G is too low for " + bus.String()
	case analysis.WrongPhases:
		if lacksLine(p.System, mode, analysis.LinesOf(*host.part, bus)) {
			return "it lacks a line of " + bus.String()
		}
		return "it has no terminal for the neutral of " + bus.String()
	case analysis.NoRating:
		return "its level " + mode.String() + " is not stated"
	case analysis.NoSystem:
		return "the system at its bus is not known"
	}
	return "it has no " + mode.String() + " mode"
}
