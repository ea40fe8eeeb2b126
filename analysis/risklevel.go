package analysis

import (
	"fmt"
	"math"

	"clampline/diagram"
)

// Figures of the calculated risk level. The formula, the limit and the usual
// length are those of a network operator's guide to clause 443; the factors of
// the surroundings are from memory.
const (
	riskLimit    = 1000.0 // protection is needed below it
	openFactor   = 85.0   // f_env, rural and suburban
	urbanFactor  = 850.0
	nearestMetre = 1000.0 // m of line upstream that count, and that are taken where nothing is known
)

// sourceRisk is the clause on the need for protection.
const sourceRisk = "IEC 60364-4-44:2007 with amendment 1:2015, clause 443 (" + CheckEdition + ")"

// lines are the lengths of line upstream that count, km.
type lines struct{ lowOverhead, lowCable, highOverhead, highCable float64 }

// path returns the risk length, km.
func (l lines) path() float64 {
	return 2*l.lowOverhead + l.lowCable + 0.4*l.highOverhead + 0.2*l.highCable
}

// RiskLevel returns the calculated risk level of IEC 60364-4-44:2007 with
// amendment 1:2015, clause 443.5, how it came about, and whether it is known:
// without the density of flashes it is not. Below 1000 protection is needed.
// What else is missing is taken as worst: rural surroundings, and low-voltage
// overhead line for what the stated lines lack of a kilometre, unless an
// overvoltage device stands at their end.
func RiskLevel(e diagram.Exposure) (crl float64, working Working, known bool) {
	factor, environment := environmentOf(e.Surroundings)
	l, length := linesOf(e)
	path := l.path()
	working = append(Working{environment}, length...)
	working = append(working, pathStep(l, path))
	if !(e.FlashDensity > 0) {
		return 0, append(working, Step{Label: "lightning flashes", Text: "their density is not known: there is no risk level"}), false
	}
	crl = min(factor/(path*e.FlashDensity), math.MaxFloat64)
	return crl, append(working,
		Step{Label: "lightning flashes N_g", Result: e.FlashDensity, Unit: "per km² and year", Source: FromSheet},
		Step{
			Label: "calculated risk level", Formula: "CRL = f_env / (L_P N_g)", Result: crl,
			Text:   fmt.Sprintf("%s / (%s × %s) = %s", Figure(factor), Figure(path), Figure(e.FlashDensity), Figure(crl)),
			Source: sourceRisk,
		},
		Step{Label: "limit", Result: riskLimit, Text: "protection is needed below " + Figure(riskLimit), Source: sourceRisk},
	), true
}

// environmentOf returns f_env = 85 F or 850 F, with F = 1: countries may set up
// to 3 for dwellings.
func environmentOf(s diagram.Surroundings) (float64, Step) {
	factor, text := openFactor, string(s)
	switch s {
	case diagram.Urban:
		factor = urbanFactor
	case "":
		text = "surroundings not known, taken as rural"
	}
	return factor, Step{
		Label: "surroundings", Formula: "f_env = 85 F, urban 850 F", Result: factor, Text: text + ", F = 1: " + Figure(factor),
		Source: "IEC 60364-4-44:2007 with amendment 1:2015, table 443.1 " + Recalled,
	}
}

// leastRisk returns the risk level where what is not stated is taken as best: in a
// town, with an overvoltage device at the end of the stated lines. It is infinite
// where no line is stated.
func leastRisk(e diagram.Exposure) float64 {
	if e.Surroundings == "" {
		e.Surroundings = diagram.Urban
	}
	factor, _ := environmentOf(e.Surroundings)
	l := nearest(e)
	return factor / (l.path() * e.FlashDensity)
}

// given returns the stated lengths, m: the nearest first.
func given(e diagram.Exposure) [4]float64 {
	return [4]float64{e.LowOverhead, e.LowCable, e.HighOverhead, e.HighCable}
}

// notStated returns how much of the nearest kilometre the sheet does not state, m:
// what an unknown network of IEC 60364-4-44:2007 with amendment 1, clause 443.5, is
// taken to have of low-voltage overhead line (from memory; a published guide has
// it for a length that is not known at all). Where no line is stated there is none
// at whose end a device could stand.
func notStated(e diagram.Exposure) float64 {
	total := 0.0
	for _, length := range given(e) {
		total += length
	}
	if e.LinesEnd && total > 0 {
		return 0
	}
	return max(0, ToMicrometre(nearestMetre-total))
}

// nearest returns the stated lines of the nearest kilometre. Those of low voltage
// lie nearest to the building; where they are longer, the overhead ones count
// first, which is the worse.
func nearest(e diagram.Exposure) lines {
	left, counted := nearestMetre, [4]float64{}
	for i, length := range given(e) {
		counted[i] = min(length, left)
		left -= counted[i]
	}
	return lines{counted[0] / 1000, counted[1] / 1000, counted[2] / 1000, counted[3] / 1000}
}

// linesOf returns the lines of the nearest kilometre with what is not stated of
// it.
func linesOf(e diagram.Exposure) (lines, Working) {
	l := nearest(e)
	unknown := notStated(e)
	var working Working
	if unknown >= nearestMetre {
		text := "nothing is known of them: 1 km of low-voltage overhead line is taken"
		return lines{lowOverhead: nearestMetre / 1000}, Working{{Label: "lines upstream", Text: text, Source: sourceRisk}}
	}
	names := []string{"low-voltage overhead line L_PAL", "low-voltage cable L_PCL", "high-voltage overhead line L_PAH", "high-voltage cable L_PCH"}
	stated := given(e)
	for i, counted := range []float64{l.lowOverhead, l.lowCable, l.highOverhead, l.highCable} {
		working = append(working, Step{Label: names[i], Result: counted, Unit: "km", Source: FromSheet})
		if ToMicrometre(counted*1000) < ToMicrometre(stated[i]) {
			working[i].Source = "from the sheet, of which the nearest 1 km of line counts"
		}
	}
	if unknown > 0 {
		l.lowOverhead += unknown / 1000
		working = append(working, Step{
			Label: "line that is not stated", Result: unknown / 1000, Unit: "km", Text: "taken as low-voltage overhead line",
			Source: "IEC 60364-4-44:2007 with amendment 1:2015, clause 443.5 " + Recalled,
		})
	}
	return l, working
}

func pathStep(l lines, path float64) Step {
	return Step{
		Label: "risk length L_P", Formula: "2 L_PAL + L_PCL + 0.4 L_PAH + 0.2 L_PCH",
		Numbers: fmt.Sprintf("2 × %s + %s + 0.4 × %s + 0.2 × %s", FigureIn(l.lowOverhead, "km"), FigureIn(l.lowCable, "km"),
			FigureIn(l.highOverhead, "km"), FigureIn(l.highCable, "km")),
		Result: path, Unit: "km", Source: sourceRisk,
	}
}
