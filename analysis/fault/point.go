package fault

import (
	"fmt"
	"math/cmplx"

	"clampline/analysis"
	"clampline/analysis/conductor"
	"clampline/diagram"
)

// current returns what would flow with what has been added up so far, A.
func (w *writer) current(s diagram.System) float64 {
	return over(w.driving(s.Voltage)/lines(s), w.line)
}

// pointFeeder writes the factors of the point-to-point method for a feeder.
func (w *writer) pointFeeder(way *way, s diagram.System, name string) {
	if way.line == 0 {
		w.say(name, "has no length", fromSheet)
		return
	}
	f := way.feeder
	before := w.current(s)
	after := over(w.driving(s.Voltage)/lines(s), w.line+way.line)
	_, number := divisor(s)
	length, c := analysis.FigureIn(f.Length/conductor.Foot, "ft"), w.constant(f, w.frequency(s))
	if before == 0 {
		w.add(analysis.Step{
			Label: name, Formula: fmt.Sprintf("I = C n %s / (%s L)", w.voltageSymbol(), number), Numbers: fmt.Sprintf("%s, n %.0f, %s", c.text(), parallel(f), length),
			Result: after, Unit: "A", Source: c.source,
		})
		return
	}
	factor := real(way.line) / real(w.line)
	w.say(name, fmt.Sprintf("f = %s × %s × %s / (%.0f × %.0f × %s) = %s; %s", number, length, analysis.FigureIn(before, "A"), c.value, parallel(f),
		w.volts(s.Voltage), analysis.Figure(factor), c.text()), c.source)
	w.add(analysis.Step{
		Label: "at its end", Formula: "I2 = M I1, M = 1 / (1 + f)",
		Numbers: fmt.Sprintf("%s × %s", analysis.Figure(1/(1+factor)), analysis.FigureIn(before, "A")), Result: after, Unit: "A", Source: "point-to-point method",
	})
}

// pointTransformer writes the factors of the point-to-point method for a
// transformer, and refers what has been added up to its other side.
func (w *writer) pointTransformer(way *way, near, far diagram.System, name string, own complex128) {
	before, formula := w.current(near), "I2 = V1 / V2 × M I1, M = 1 / (1 + f)"
	if near.Phases() == 3 && far.Phases() != 3 {
		before, formula = over(w.driving(near.Voltage)/2, w.line), formula+", I1 between two lines"
	}
	ratio := far.Voltage / near.Voltage
	w.line *= complex(ratio*ratio, 0)
	after := over(w.driving(far.Voltage)/lines(far), w.line+own)
	source := "point-to-point method, from memory; check your edition; " + w.transformerSource(way)
	if before == 0 {
		w.add(analysis.Step{
			Label: "behind " + name, Formula: "I = 100 / z × full-load current",
			Numbers: fmt.Sprintf("100 / %s × %s", analysis.Figure(way.percent), analysis.FigureIn(after*way.percent/100, "A")),
			Result:  after, Unit: "A", Source: source,
		})
		return
	}
	factor := real(own) / real(w.line)
	w.say(name, w.transformerFactor(way, near, far, before, own)+" = "+analysis.Figure(factor), source)
	w.add(analysis.Step{
		Label: "behind " + name, Formula: formula,
		Numbers: fmt.Sprintf("%s / %s × %s × %s", analysis.FigureIn(near.Voltage, "V"), analysis.FigureIn(far.Voltage, "V"), analysis.Figure(1/(1+factor)), analysis.FigureIn(before, "A")),
		Result:  after, Unit: "A", Source: source,
	})
}

// transformerFactor writes how the factor f of a transformer comes about. By the
// practice of IEC its impedance is not on the voltage that drives the current.
func (w *writer) transformerFactor(way *way, near, far diagram.System, before float64, own complex128) string {
	if w.iec {
		return fmt.Sprintf("f = %s of it / %s before it", ohmText(cmplx.Abs(own)), ohmText(cmplx.Abs(w.line)))
	}
	_, number := divisor(far)
	if isSingle(far) {
		number = "1"
	}
	return fmt.Sprintf("f = %s × %s × %s × %s / (100 000 × %s)", analysis.FigureIn(before, "A"), w.volts(near.Voltage), number,
		analysis.FigureIn(way.percent, "%"), analysis.FigureIn(way.part.Transformer.Power/1000, "kVA"))
}
