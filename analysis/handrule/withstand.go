package handrule

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/diagram"
)

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
		return analysis.ImpulseVoltage(categoryVoltage(s), w.Category)
	}
	return 0
}

// Withstand returns what equipment on a system stands in a mode, V peak, or 0
// where it is not known.
func Withstand(w diagram.Withstand, s diagram.System, m diagram.Mode, told *analysis.Working) float64 {
	volts := max(0, withstandVolts(w, s, m))
	if told != nil {
		told.Add(withstandStep(w, s, m, volts))
	}
	return volts
}

func withstandStep(w diagram.Withstand, s diagram.System, m diagram.Mode, volts float64) analysis.Step {
	if volts <= 0 {
		return analysis.Step{Label: "withstand", Text: "not known"}
	}
	step := analysis.Step{Label: "withstand", Result: volts, Unit: "V", Source: fromSheet}
	switch w.Kind {
	case diagram.ByMultiple:
		step.Formula = "k √2 U"
		step.Numbers = fmt.Sprintf("%s × √2 × %s", analysis.Figure(w.Multiple), analysis.FigureIn(multipleVoltage(s, m), "V"))
		step.Source = "per cent of the nominal crest, as the ITIC curve counts (2000)"
	case diagram.ByCategory:
		step.Label = "rated impulse voltage"
		step.Numbers = fmt.Sprintf("overvoltage category %s, up to %s to neutral", roman(w.Category), analysis.FigureIn(analysis.ImpulseRow(categoryVoltage(s)), "V"))
		step.Source = "IEC 60664-1:2007 table F.1"
	}
	return step
}

// AddShare writes how much of a withstand, V, a level reaches, where both are known.
func AddShare(w *analysis.Working, level analysis.Level, withstand float64) {
	if level.Known && withstand > 0 {
		w.Add(analysis.Step{
			Label: "share of the withstand", Formula: "E / Uw", Numbers: analysis.FigureIn(level.Volts, "V") + " / " + analysis.FigureIn(withstand, "V"),
			Result: 100 * level.Volts / withstand, Unit: "%", Source: "at most 80 % is Held, after IEC 62305-4:2010 annex C, from memory",
		})
	}
}

func roman(category int) string { return [...]string{"I", "II", "III", "IV"}[category-1] }
