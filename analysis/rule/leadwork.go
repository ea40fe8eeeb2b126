package rule

import (
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

// addsIEC returns what live and earth side add to Up, V, and how long they are with
// what that makes.
func (s *site) addsIEC(l lengths) (adds float64, w analysis.Working) {
	total, rate := l.total(), lead.RateOf(l.together).Up
	adds = rate * total
	w.Add(analysis.Step{
		Label: "live and earth side", Formula: "l1 + l2", Numbers: analysis.FigureIn(l.Line, "m") + " + " + analysis.FigureIn(l.Back, "m"),
		Result: total, Unit: "m", Source: fromSheet,
	})
	step := analysis.Step{
		Label: "what they add", Formula: "k l", Numbers: analysis.FigureIn(rate, "V/m") + " × " + analysis.FigureIn(total, "m"),
		Result: adds, Unit: "V", Source: perMetreOfUp,
	}
	if l.together {
		step.Source = s.leadSource(true)
	}
	if l.rating > 0 && s.protector.Rating == diagram.Up {
		step.Label, step.Formula, step.Numbers = "Up with its leads", "Up + k l", volts(l.rating)+" + "+step.Numbers
		step.Result += l.rating
	}
	w.Add(step)
	return adds, w
}
