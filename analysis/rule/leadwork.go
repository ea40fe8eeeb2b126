package rule

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/diagram"
)

// wholeVolts writes an estimate.
func wholeVolts(v float64) string { return volts(math.Round(v)) }

const perMetreOfUp = "1 kV per metre, IEC 61643-12 " + recalled

// leadSource names where the volts per length of leads come from.
func (s *site) leadSource(together bool) string {
	switch {
	case together:
		return "inductance of two touching wires, 0.21 µH/m each, computed; " + commonPractice
	case s.protector.Rating == diagram.Up:
		return perMetreOfUp
	}
	return "25 V per inch beyond six inches, " + commonPractice + "; six inches: UL 1449"
}

// leadWorking says what the leads add, run apart or together.
func (s *site) leadWorking(together bool) analysis.Working {
	p := s.protector
	line, back := pair(p)
	label := "leads run apart"
	if together {
		label = "leads run together"
	}
	slope, slopeUp := slopes(together)
	step := analysis.Step{Label: label, Result: added(p, together), Unit: "V", Source: s.leadSource(together)}
	if p.Rating == diagram.Up {
		step.Formula = "k (l1 + l2)"
		step.Numbers = fmt.Sprintf("%s × (%s + %s)", analysis.FigureIn(slopeUp, "V/m"), analysis.FigureIn(line, "m"), analysis.FigureIn(back, "m"))
		return analysis.Working{step}
	}
	step.Formula = "k max(0, (l1 + l2)/2 − l0)"
	step.Numbers = fmt.Sprintf("%s × max(0, (%s + %s)/2 − %s)",
		analysis.FigureIn(slope*inch, "V/in"), inInches(line), inInches(back), inInches(leadInVPR))
	return analysis.Working{step}
}

func inInches(metres float64) string { return analysis.FigureIn(metres/inch, "in") }

// leadWorkingIEC says how long the leads are, and what they add to Up.
func (s *site) leadWorkingIEC(total float64) analysis.Working {
	line, back := pair(s.protector)
	out := analysis.Working{
		{
			Label: "live and earth side", Formula: "l1 + l2", Numbers: analysis.FigureIn(line, "m") + " + " + analysis.FigureIn(back, "m"),
			Result: total, Unit: "m", Source: fromSheet,
		},
	}
	perMetre, source := s.perMetre(), perMetreOfUp
	if tied(s.protector) {
		source = s.leadSource(true)
	}
	up := lineLevel(s.protector)
	if up <= 0 || s.protector.Rating != diagram.Up {
		return append(out, analysis.Step{
			Label: "what they add", Formula: "k l", Numbers: analysis.FigureIn(perMetre, "V/m") + " × " + analysis.FigureIn(total, "m"),
			Result: perMetre * total, Unit: "V", Source: source,
		})
	}
	return append(out, analysis.Step{
		Label: "Up with its leads", Formula: "Up + k l",
		Numbers: fmt.Sprintf("%s + %s × %s", volts(up), analysis.FigureIn(perMetre, "V/m"), analysis.FigureIn(total, "m")),
		Result:  up + perMetre*total, Unit: "V", Source: source,
	})
}
