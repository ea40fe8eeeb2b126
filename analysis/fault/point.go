package fault

import (
	"fmt"
	"math/cmplx"

	"clampline/analysis"
	"clampline/analysis/conductor"
	"clampline/diagram"
)

// through returns what would flow in a system through an impedance of a line, A.
func (r rules) through(s diagram.System, z complex128) float64 {
	return over(r.driving(s.Voltage)/lines(s).value, z)
}

// pointFeeder writes the factors of the point-to-point method for a feeder.
func (w *writer) pointFeeder(way *way, s diagram.System) {
	if way.line == 0 {
		w.say(w.name, "has no length", fromSheet)
		return
	}
	f, number := way.feeder, lines(s).number
	before, after := w.through(s, w.line), w.through(s, w.line+way.line)
	length, c := analysis.FigureIn(f.Length/conductor.Foot, "ft"), w.constant(f, w.frequency(s))
	text, source := w.constantText(f, c)
	if before == 0 {
		w.amps(w.name, fmt.Sprintf("I = C n %s / (%s L)", w.voltageSymbol(), number), fmt.Sprintf("%s, n %.0f, %s", text, parallel(f), length), after, source)
		return
	}
	factor := real(way.line) / real(w.line)
	w.say(w.name, fmt.Sprintf("f = %s × %s × %s / (%.0f × %.0f × %s) = %s; %s", number, length, analysis.FigureIn(before, "A"), c, parallel(f),
		w.volts(s.Voltage), analysis.Figure(factor), text), source)
	w.amps("at its end", "I2 = M I1, M = 1 / (1 + f)", fmt.Sprintf("%s × %s", analysis.Figure(1/(1+factor)), analysis.FigureIn(before, "A")), after, "point-to-point method")
}

// pointTransformer writes the factors of the point-to-point method for a
// transformer of the impedance own at its far side.
func (w *writer) pointTransformer(way *way, near, far diagram.System, own complex128) {
	before, formula := w.through(near, w.line), "I2 = V1 / V2 × M I1, M = 1 / (1 + f)"
	if near.Phases() == 3 && far.Phases() != 3 {
		before, formula = over(w.driving(near.Voltage)/2, w.line), formula+", I1 between two lines"
	}
	ratio := far.Voltage / near.Voltage
	above := w.line * complex(ratio*ratio, 0)
	after := w.through(far, above+own)
	label, source := "behind "+w.name, "point-to-point method, from memory; check your edition; "+w.transformerSource(way)
	if before == 0 {
		w.amps(label, "I = 100 / z × full-load current",
			fmt.Sprintf("100 / %s × %s", analysis.Figure(way.percent), analysis.FigureIn(after*way.percent/100, "A")), after, source)
		return
	}
	factor := real(own) / real(above)
	w.say(w.name, w.transformerFactor(way, near, far, before, above, own)+" = "+analysis.Figure(factor), source)
	w.amps(label, formula, fmt.Sprintf("%s / %s × %s × %s", analysis.FigureIn(near.Voltage, "V"), analysis.FigureIn(far.Voltage, "V"),
		analysis.Figure(1/(1+factor)), analysis.FigureIn(before, "A")), after, source)
}

// transformerFactor writes how the factor f of a transformer comes about. By the
// practice of IEC its impedance is not on the voltage that drives the current.
func (w *writer) transformerFactor(way *way, near, far diagram.System, before float64, above, own complex128) string {
	if w.iec {
		return fmt.Sprintf("f = %s of it / %s before it", ohmText(cmplx.Abs(own)), ohmText(cmplx.Abs(above)))
	}
	number := lines(far).number
	if isSingle(far) {
		number = "1"
	}
	return fmt.Sprintf("f = %s × %s × %s × %s / (100 000 × %s)", analysis.FigureIn(before, "A"), w.volts(near.Voltage), number,
		analysis.FigureIn(way.percent, "%"), analysis.FigureIn(way.part.Transformer.Power/1000, "kVA"))
}
