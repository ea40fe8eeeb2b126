package fault

import (
	"fmt"
	"math/cmplx"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// inOhms returns an impedance in its unit, mΩ where it is small.
func inOhms(ohms float64) (value float64, unit string) {
	if ohms < 1 {
		return ohms * 1000, "mΩ"
	}
	return ohms, "Ω"
}

func ohmText(ohms float64) string { return analysis.FigureIn(inOhms(ohms)) }

// ohms adds a step whose result is an impedance. By the complex sum its numbers
// end with resistance and reactance.
func (w *writer) ohms(label, formula, numbers, source string, z complex128) {
	if !w.point {
		if numbers != "" {
			numbers += ", or "
		}
		numbers += "R " + ohmText(real(z)) + ", X " + ohmText(imag(z))
	}
	value, unit := inOhms(cmplx.Abs(z))
	w.add(analysis.Step{Label: label, Formula: formula, Numbers: numbers, Result: value, Unit: unit, Source: source})
}

func (w *writer) amps(label, formula, numbers string, amps float64, source string) {
	w.add(analysis.Step{Label: label, Formula: formula, Numbers: numbers, Result: amps, Unit: "A", Source: source})
}

// differ reports whether two impedances are apart by more than rounding.
func differ(a, b complex128) bool { return cmplx.Abs(a-b) > 1e-6*cmplx.Abs(b) }

// volts writes the driving voltage.
func (w *writer) volts(volts float64) string {
	if w.iec {
		return fmt.Sprintf("%.2f × %s", voltageFactor, analysis.FigureIn(volts, "V"))
	}
	return analysis.FigureIn(volts, "V")
}

// voltageSymbol is that of the driving voltage in formulas.
func (w *writer) voltageSymbol() string {
	if w.iec {
		return "c V"
	}
	return "V"
}

// ratioText writes a ratio of reactance to resistance where it counts.
func (w *writer) ratioText(xr float64) string {
	if w.point {
		return ""
	}
	return ", X/R " + analysis.Figure(xr)
}

func (w *writer) sourceOf(what, source string) string {
	if w.point && what == "X/R" || source == "" {
		return fromSheet
	}
	return what + ": " + source
}

// transformer refers what has been added up to the other side of a transformer,
// and adds its own impedance.
func (w *writer) transformer(h hop) {
	near, far := w.terminals[h.near].system, w.terminals[h.far].system
	w.name = w.doc.NameOf(h.way.part.ID)
	own, ratio := w.referred(h.way, h.far), far.Voltage/near.Voltage
	if w.point {
		w.pointTransformer(h.way, near, far, own)
		w.line = w.line*complex(ratio*ratio, 0) + own
		return
	}
	if w.line != 0 {
		w.line *= complex(ratio*ratio, 0)
		w.ohms("referred over "+w.name, "Z (V2 / V1)²", fmt.Sprintf("× (%s / %s)²", analysis.FigureIn(far.Voltage, "V"), analysis.FigureIn(near.Voltage, "V")), "", w.line)
	}
	w.leakage("transformer "+w.name, w.plateOf(h.way, h.far), w.transformerSource(h.way), own)
	w.line += own
}

// transformerSource says where the per cent impedance of a transformer is from.
func (w *writer) transformerSource(way *way) string {
	source := fromSheet
	if len(way.facts) > 0 {
		var told []string
		for _, f := range way.facts {
			told = append(told, f.text+": "+f.source)
		}
		source = strings.Join(told, "; ")
	}
	if w.iec {
		source += "; " + noLoadSource
	}
	if w.tolerance > 0 {
		source += fmt.Sprintf("; less %s %% of tolerance", analysis.Figure(w.tolerance))
	}
	return source
}

// toNeutral goes over a single-phase transformer fed from one line and the
// neutral.
func (w *writer) toNeutral(h hop) {
	w.line = w.seenAt(h.under, h.far).line
	w.ohms("half of the loop behind "+w.doc.NameOf(h.way.part.ID),
		"(loop from line to neutral × (V2 / V1)² + z V² / (100 S)) / 2; of three phases the loop is (Z1 + Z2 + Z0) / 3", "", "symmetrical components", w.line)
}

// tap goes on along a feeder of one line and the neutral.
func (w *writer) tap(h hop) {
	loop, _ := w.loop(h.under.inletAt(w.building, h.far).from, h.near)
	w.line, w.since = loop/2, 0
	w.ohms("half of the loop from line to neutral at "+w.nameOf(h.near), "loop / 2; of three phases the loop is (Z1 + Z2 + Z0) / 3", "", "symmetrical components", w.line)
	w.feeder(h)
}

// feeder adds a feeder.
func (w *writer) feeder(h hop) {
	f := h.way.feeder
	w.name = w.doc.NameOf(f.ID)
	if w.point && w.sized(f) {
		w.pointFeeder(h.way, w.terminals[h.far].system)
	} else {
		w.run(f, w.frequency(w.terminals[h.way.from].system), w)
	}
	w.line += h.way.line
	w.since += h.way.line
}

// lineCurrent writes a current that flows in lines alone, where there is one.
func (w *writer) lineCurrent(label, symbol, number string, s diagram.System, z seen, amps float64, source string) {
	if w != nil && amps > 0 {
		w.amps(label, "I = "+w.voltageSymbol()+" / ("+symbol+")", fmt.Sprintf("%s / (%s × %s)", w.volts(s.Voltage), number, ohmText(cmplx.Abs(z.line))), amps, source)
	}
}

// neutralCurrent writes the current to neutral and to earth, where there is one.
func (w *writer) neutralCurrent(f *analysis.Fault, s diagram.System, z seen, volts float64, loop complex128) {
	corner := s.Earthing == diagram.Corner
	if w == nil {
		return
	}
	if f.LineNeutral > 0 || f.LineEarth > 0 && !corner {
		w.wayBack(s, z, loop)
	}
	formula, numbers := "I = V to neutral / Z of the loop", fmt.Sprintf("%s / %s", analysis.FigureIn(volts, "V"), ohmText(cmplx.Abs(loop)))
	if returnOf(s) == zeroSequence {
		formula = "I = √3 " + w.voltageSymbol() + " / (Z1 + Z2 + Z0)"
		numbers = fmt.Sprintf("1.732 × %s / %s", w.volts(s.Voltage), ohmText(cmplx.Abs(loop)))
	}
	if f.LineNeutral > 0 {
		w.amps("line-to-neutral fault current", formula, numbers, f.LineNeutral, "symmetrical components")
	}
	switch {
	case f.LineEarth > 0 && corner:
		w.amps("line-to-earth fault current", "that between lines: one of them is earthed", "", f.LineEarth, "Kirchhoff's laws")
	case f.LineEarth > 0:
		w.amps("line-to-earth fault current", formula, numbers, f.LineEarth, "symmetrical components")
	}
}

// wayBack writes what the way back has, and how much of it is that of the
// feeders.
func (w *writer) wayBack(s diagram.System, z seen, loop complex128) {
	const alike = "neutral and earth conductor taken like the lines; " + noSource
	times := returnOf(s).times()
	numbers := ""
	if times != 0 && w.since != 0 && !differ(z.back, w.back+times*w.since) {
		start, more := w.back, times*w.since
		if times == 1 {
			start, more = 2*start, 2*more
		}
		numbers = fmt.Sprintf("%s at %s, and %s of the feeders since", ohmText(cmplx.Abs(start)), w.begun, ohmText(cmplx.Abs(more)))
	}
	if returnOf(s) == zeroSequence {
		w.ohms("Z0 at "+w.nameOf(w.at), "Z0 of the source or transformer that begins it, and 4 Z1 of each feeder", numbers, alike, z.back)
		return
	}
	formula, source := w.loopText(s)
	w.ohms("loop from line to neutral at "+w.nameOf(w.at), formula, numbers, source+alike, loop)
}

// loopText is the formula of a loop to the neutral, and where half of a winding in
// it is from.
func (r rules) loopText(s diagram.System) (formula, source string) {
	const formulaOfWinding = "what feeds the winding at half its voltage, half of the winding, and both conductors"
	switch {
	case s.Wiring == diagram.Single:
		return "2 Z", ""
	case r.point:
		return formulaOfWinding, halfMagnitudeSource + "; "
	}
	return formulaOfWinding, halfSource + "; "
}

// lastLocal returns the text that says what keeps currents to earth from being
// found in the zone of the note, or nothing.
func (n *note) lastLocal() string {
	for at := n; at != nil && at.zone == n.zone; at = at.above {
		if at.local {
			return at.assumption.Text
		}
	}
	return ""
}
