package rule

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/analysis/lead"
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
	var out analysis.Working
	told := lead.Told{Working: &out, Label: "leads run apart", Source: s.leadSource(together), Both: true}
	if together {
		told.Label = "leads run together"
	}
	lead.RateOf(together).Volts(s.protector.Rating, lead.Longest(&s.protector), &told)
	return out
}

// leadWorkingIEC says how long the leads are, and what they add to Up.
func (s *site) leadWorkingIEC(total float64) analysis.Working {
	l := lead.Longest(&s.protector)
	out := analysis.Working{
		{
			Label: "live and earth side", Formula: "l1 + l2", Numbers: analysis.FigureIn(l.Line, "m") + " + " + analysis.FigureIn(l.Back, "m"),
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
