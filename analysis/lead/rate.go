package lead

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// Inch is one in metres.
const Inch = 0.0254

// InVPR is the lead that a VPR includes, m: UL 1449.
const InVPR = 6 * Inch

// Preferred is what line and earth side should have together at most, m:
// IEC 60364-5-53 clause 534.4.8.
const Preferred = 0.5

// AtMost is what they may have together at most, m: the same clause.
const AtMost = 1.0

// Rate is what leads add per length.
type Rate struct {
	VPR  float64 // V per metre of two leads beyond Free, phase and return counted together
	Free float64 // length of each lead that a VPR includes, m
	Up   float64 // V per metre of each lead, added to an Up
}

// RateOf returns the rate of two leads that run each by itself, which is what the
// hand rule takes: 25 V per inch beyond six inches is common practice, no source;
// 1 kV per metre is that of DIN VDE 0100-534 and IEC 61643-12 (from memory). Two that
// run together have 0.21 µH/m each in place of 1 µH/m, computed for the combination
// wave of 6 kV and 3 kA in two touching wires of 10 AWG.
func RateOf(together bool) Rate {
	if together {
		return Rate{3.9 / Inch, InVPR, 210}
	}
	return Rate{25 / Inch, InVPR, 1000}
}

// Told is where the working of a figure is written, and under which words.
type Told struct {
	Working       *analysis.Working
	Label, Source string
	Both          bool // both lengths are written where they are alike, too
}

// Volts returns what leads add to the rating of a protector, V. Where told is not
// nil it writes down how.
func (r Rate) Volts(rating diagram.Rating, l Pair, told *Told) float64 {
	if rating == diagram.Up {
		volts := r.Up * (l.Line + l.Back)
		if told != nil {
			told.add("k (l1 + l2)", fmt.Sprintf("%s × (%s + %s)", analysis.FigureIn(r.Up, "V/m"), analysis.FigureIn(l.Line, "m"), analysis.FigureIn(l.Back, "m")), volts)
		}
		return volts
	}
	volts := r.VPR * max(0, (l.Line+l.Back)/2-r.Free)
	if told != nil {
		told.add("k max(0, (l1 + l2)/2 − l0)", fmt.Sprintf("%s × max(0, %s − %s)", analysis.FigureIn(r.VPR*Inch, "V/in"), told.mean(l), Inches(r.Free)), volts)
	}
	return volts
}

func (t *Told) add(formula, numbers string, volts float64) {
	t.Working.Add(analysis.Step{Label: t.Label, Formula: formula, Numbers: numbers, Result: volts, Unit: "V", Source: t.Source})
}

func (t *Told) mean(l Pair) string {
	if l.Line == l.Back && !t.Both {
		return Inches(l.Line)
	}
	return "(" + Inches(l.Line) + " + " + Inches(l.Back) + ")/2"
}

// Inches writes a length as the rule for a VPR has it.
func Inches(metres float64) string { return analysis.FigureIn(metres/Inch, "in") }
