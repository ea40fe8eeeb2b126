package rule

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/diagram"
)

// Corners of the ITIC curve of 2000, upper limit: seconds. A hundredth of a
// cycle is that of 60 Hz.
const (
	iticCycle  = 0.01 / 60
	iticFirst  = 1e-3
	iticSecond = 3e-3
	iticThird  = 0.5
)

// combinationTail is the time to half-value of the voltage of the combination
// wave, s (1.2/50 µs, IEC 60060-1).
const combinationTail = 50e-6

// ITIC returns the voltage that information equipment for 120 V stands for a
// time in seconds, as a multiple of the nominal one: the upper limit of the
// curve of the Information Technology Industry Council (2000). Between its first
// two corners the line is straight over the logarithm of the time (from memory
// of the chart).
func ITIC(seconds float64) float64 {
	switch {
	case seconds <= iticCycle:
		return 5
	case seconds <= iticFirst:
		return 5 - 3*math.Log(seconds/iticCycle)/math.Log(iticFirst/iticCycle)
	case seconds <= iticSecond:
		return 1.4
	case seconds <= iticThird:
		return 1.2
	}
	return 1.1
}

// withstandRules is on what equipment is stated to withstand.
func withstandRules() []record[*place] {
	return about(analysis.SubjectNameplate, tellsOne("nameplate.withstand", (*place).beyondITIC, sayBeyondITIC))
}

// beyondITIC finds electronics whose withstand is stated as a multiple beyond the
// curve from which such multiples come, without a note that would say whence, and
// returns that of the curve.
func (p *place) beyondITIC() (limit float64, found bool) {
	stated, limit := p.part.Withstand, ITIC(combinationTail)
	electronics := p.part.Kind == diagram.Load && p.part.Load.Terminals == diagram.FilteredTerminals
	return limit, electronics && stated.Kind == diagram.ByMultiple && stated.Multiple > limit && p.part.Note == ""
}

func sayBeyondITIC(p *place, limit float64) said {
	return said{
		severity: analysis.Remark,
		what:     fmt.Sprintf("%s is stated to withstand %s times the crest of its voltage", p.name(), analysis.Figure(p.part.Withstand.Multiple)),
		why:      "the curve for information equipment, from which such multiples come, allows " + analysis.Figure(limit) + " times at most, and that for 120 V",
		remedy:   "state volts or an overvoltage category if its maker gives them, say in its note where the figure comes from, or take " + analysis.Figure(limit) + " times",
		source:   "ITIC curve, 2000",
		mend: analysis.MendPart(p.part.ID, "take "+analysis.Figure(limit)+" times the crest for …", p.name(), func(part *diagram.Part) {
			if part.Withstand.Kind == diagram.ByMultiple {
				part.Withstand.Multiple = min(part.Withstand.Multiple, limit)
			}
		}),
	}
}
