package handrule

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// findings reports the protectors that do not fit the bus they are on.
func (s *solver) findings() []analysis.Finding {
	var out []analysis.Finding
	for i := range s.places {
		p := &s.places[i]
		for _, protector := range s.protectors[p.part.ID] {
			out = append(out, unfit(protector, p)...)
		}
	}
	return out
}

// unfit reports what is wrong with one protector on its bus, once for each
// reason.
func unfit(protector *diagram.Protector, p *place) []analysis.Finding {
	bus := p.node.System
	if !bus.Known() {
		return nil
	}
	var out []analysis.Finding
	for _, reason := range []analysis.Reason{analysis.WrongVoltage, analysis.WrongEarthing, analysis.WrongPhases} {
		var modes []string
		why := ""
		for _, mode := range diagram.Modes() {
			if bus.HasMode(mode) && refusal(protector, mode, bus) == reason {
				modes = append(modes, mode.String())
				why = objection(protector, mode, reason, bus)
			}
		}
		if len(modes) == 0 {
			continue
		}
		finding := unfitting(reason)
		finding.Records = []diagram.ID{protector.ID, p.part.ID}
		finding.What = fmt.Sprintf("%s on %s does not count in %s", nameOr(protector.Name, protector.ID), nameOf(p.part), strings.Join(modes, ", "))
		finding.Why = why
		out = append(out, finding)
	}
	return out
}

// unfitting returns the part of a finding that does not depend on the
// protector.
func unfitting(reason analysis.Reason) analysis.Finding {
	out := analysis.Finding{Severity: analysis.Error, Subject: "protector"}
	switch reason {
	case analysis.WrongVoltage:
		out.Remedy = "take one made for the voltage of the bus"
		out.Source = "NFPA 70 article 242, and IEC 60364-5-53 clause 534: the continuous rating is at least the voltage of the system; check your edition"
	case analysis.WrongEarthing:
		out.Remedy = "take one listed for this earthing, with an L-G rating of at least the voltage between lines"
		out.Source = "NFPA 70:2023 section 242.12; the number moves between editions"
	default:
		out.Severity = analysis.Warning
		out.Remedy = "take one with a terminal for each line and for the neutral"
	}
	return out
}
