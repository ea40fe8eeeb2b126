package handrule

import (
	"fmt"

	"clampline/analysis"
)

// rising returns the voltage at some distance from a protector that holds ea, for a
// surge of the given steepness (V/s) in wiring of the given speed (m/s):
// E = Ea + 2 S d / v, and at most the limit.
//
// Source: Chakrabarti, Soni, Gupta, Bhatnagar, A Textbook on Power System
// Engineering, examples 2.15.1 and 2.15.2.
func rising(ea, limit, steepness, distance, speed float64) float64 {
	return min(ea+2*steepness*distance/speed, limit)
}

const distanceRule = "protective-distance rule; Chakrabarti, Soni, Gupta, Bhatnagar, A Textbook on Power System Engineering, examples 2.15.1 and 2.15.2"

// at returns the voltage at some distance from the place of a cover, V.
func (r Rule) at(c *cover, distance float64, w *analysis.Working) float64 {
	volts := rising(c.volts, c.limit, r.steepness(), distance, r.Speed)
	if w != nil {
		w.Add(r.steepnessStep())
		w.Add(r.risingStep(c, distance, volts))
	}
	return volts
}

const micro = 1e6

func (r Rule) steepnessStep() analysis.Step {
	return analysis.Step{
		Label: "steepness of the surge", Formula: "S = U / T", Numbers: analysis.FigureIn(r.SurgeVoltage, "V") + " / " + analysis.FigureIn(r.Front*micro, "µs"),
		Result: r.steepness() / micro, Unit: "V/µs", Source: "IEEE C62.41.2-2002, combination wave, from memory",
	}
}

func (r Rule) risingStep(c *cover, distance, volts float64) analysis.Step {
	out := analysis.Step{Label: "voltage at that distance", Result: volts, Unit: "V", Source: distanceRule}
	ea := analysis.FigureIn(c.volts, "V")
	rise := fmt.Sprintf("2 × %s × %s / %s", analysis.FigureIn(r.steepness()/micro, "V/µs"), analysis.FigureIn(distance, "m"), analysis.FigureIn(r.Speed/micro, "m/µs"))
	if c.isBond() {
		out.Formula, out.Numbers = "E = min(2 S d / v, Em)", "min("+rise+", "+analysis.FigureIn(c.limit, "V")+")"
		out.Source += "; Em is what arrives, or the most that a line has to earth (derived)"
		return out
	}
	out.Formula, out.Numbers = "E = min(Ea + 2 S d / v, 2 Ea)", "min("+ea+" + "+rise+", 2 × "+ea+")"
	return out
}

// allowed returns the distance up to which a voltage that rises from ea stays within
// a withstand, in m, and whether there is such a limit: there is none where the
// withstand is at least the limit of the voltage or nothing rises. It is 0 where ea
// is above the withstand already.
func allowed(withstand, ea, limit, steepness, speed float64) (distance float64, limited bool) {
	switch {
	case withstand >= limit:
		return 0, false
	case withstand <= ea:
		return 0, true
	case steepness <= 0:
		return 0, false
	}
	return (withstand - ea) * speed / (2 * steepness), true
}
