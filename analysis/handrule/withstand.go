package handrule

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/diagram"
)

// impulseRow is the rated impulse voltage by overvoltage category for systems
// up to a voltage from line to neutral.
type impulseRow struct {
	upTo   float64    // V rms
	rating [4]float64 // V peak, category I to IV
}

// impulseRows is IEC 60664-1:2007 table F.1. The rows of 150, 300 and 600 V
// are also those of IEC 60364-4-44 table 44.B; those of 50, 100 and 1000 V
// are from memory.
func impulseRows() [6]impulseRow {
	return [6]impulseRow{
		{50, [4]float64{330, 500, 800, 1500}},
		{100, [4]float64{500, 800, 1500, 2500}},
		{150, [4]float64{800, 1500, 2500, 4000}},
		{300, [4]float64{1500, 2500, 4000, 6000}},
		{600, [4]float64{2500, 4000, 6000, 8000}},
		{1000, [4]float64{4000, 6000, 8000, 12000}},
	}
}

// ImpulseVoltage returns the rated impulse voltage, in V peak, of equipment of
// an overvoltage category from 1 to 4 on a system of the given voltage from
// line to neutral, in V rms; 0 where the table has none.
func ImpulseVoltage(lineToNeutral float64, category int) float64 {
	if lineToNeutral <= 0 || category < 1 || category > 4 {
		return 0
	}
	for _, row := range impulseRows() {
		if lineToNeutral <= row.upTo {
			return row.rating[category-1]
		}
	}
	return 0
}

// categoryVoltage returns the voltage by which the row of the table is
// chosen, in V rms: that of the highest line to neutral, or between lines
// where the earthing does not hold the neutral.
func categoryVoltage(s diagram.System) float64 { return s.HighestToEarth() }

// multipleVoltage returns the nominal voltage across a mode whose crest a
// multiple counts, in V rms.
func multipleVoltage(s diagram.System, m diagram.Mode) float64 {
	if m == diagram.LineLine {
		return s.Voltage
	}
	return s.HighestToNeutral()
}

// withstandVolts returns what equipment stands in a mode, V peak; 0 not
// known.
func withstandVolts(w diagram.Withstand, s diagram.System, m diagram.Mode) float64 {
	switch w.Kind {
	case diagram.ByVolts:
		return w.Volts
	case diagram.ByMultiple:
		return w.Multiple * math.Sqrt2 * multipleVoltage(s, m)
	case diagram.ByCategory:
		return ImpulseVoltage(categoryVoltage(s), w.Category)
	}
	return 0
}

// Withstand returns what equipment on a system stands in a mode, in V peak,
// the step of a working that says how, and whether it is known.
func Withstand(w diagram.Withstand, s diagram.System, m diagram.Mode) (float64, analysis.Step, bool) {
	volts := withstandVolts(w, s, m)
	if volts <= 0 {
		return 0, analysis.Step{Label: "withstand", Text: "not known"}, false
	}
	step := analysis.Step{Label: "withstand", Result: volts, Unit: "V", Source: "from the sheet"}
	switch w.Kind {
	case diagram.ByMultiple:
		step.Formula = "k √2 U"
		step.Numbers = fmt.Sprintf("%s × √2 × %s", analysis.Figure(w.Multiple), analysis.FigureIn(multipleVoltage(s, m), "V"))
		step.Source = "per cent of the nominal crest, as the ITIC curve counts (2000)"
	case diagram.ByCategory:
		step.Label = "rated impulse voltage"
		step.Numbers = fmt.Sprintf("overvoltage category %s, up to %s to neutral", roman(w.Category), analysis.FigureIn(rowOf(categoryVoltage(s)), "V"))
		step.Source = "IEC 60664-1:2007 table F.1"
	}
	return volts, step, true
}

func rowOf(voltage float64) float64 {
	for _, row := range impulseRows() {
		if voltage <= row.upTo {
			return row.upTo
		}
	}
	return 0
}

func roman(category int) string { return [...]string{"I", "II", "III", "IV"}[category-1] }
