package handrule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// coverFindings reports every board and load that is not Held.
func (s *solver) coverFindings() []analysis.Finding {
	var out []analysis.Finding
	stakes := analysis.NewStakes(s.doc, s.topology)
	for i := range s.places {
		p := &s.places[i]
		if p.result == nil {
			continue
		}
		if worst := p.result[0]; worst.Verdict != analysis.Held && !s.toldOtherwise(p, worst) {
			found := stakes.CoverFinding(*p.part, worst, coverRemedy(p, worst.Reason))
			if p.standsIn(worst.Reason) {
				found.Severity = min(found.Severity, analysis.Warning)
			}
			out = append(out, found)
		}
	}
	return out
}

// toldOtherwise reports whether another finding says why the bus is not held:
// one of analysis/rule on the protector that does not fit it, or one on the
// supply that it lacks.
func (s *solver) toldOtherwise(p *place, worst analysis.Level) bool {
	switch worst.Reason {
	case analysis.NoSystem:
		return true
	case analysis.WrongVoltage, analysis.WrongEarthing, analysis.WrongPhases:
		return slices.ContainsFunc(s.protectors[p.part.ID], func(own *diagram.Protector) bool { return own.ID == worst.Protector })
	}
	return false
}

// coverRemedy says how the verdict can be mended.
func coverRemedy(p *place, reason analysis.Reason) string {
	fitting := "a protector made for " + p.node.System.String()
	switch reason {
	case analysis.AtProtector:
		return "use a protector with a lower rating, or equipment that withstands more"
	case analysis.LongLeads:
		return "shorten the leads, or use a protector with a lower rating"
	case analysis.JustBelow:
		return "place " + fitting + " here: the feeder to the one below adds voltage as its leads do"
	case analysis.NearProtector:
		return "shorten the leads of the protector, or place another here"
	case analysis.PastSwitch:
		return "close the switch if it is meant to be closed, or place " + fitting + " beyond it"
	case analysis.WrongVoltage, analysis.WrongEarthing, analysis.WrongPhases, analysis.MissingMode:
		return "replace the protector by one made for " + p.node.System.String() + " in every mode"
	case analysis.NoRating:
		return "read the rating off the nameplate and type it in, or replace the protector"
	case analysis.NoWithstand:
		return "state what it withstands, for example by its overvoltage category"
	case analysis.NoSystem:
		return "feed it from a supply whose system is known"
	}
	return "place " + fitting + " here"
}
