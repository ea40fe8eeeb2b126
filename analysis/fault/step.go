package fault

import (
	"fmt"
	"math/cmplx"
	"strings"

	"clampline/analysis"
	"clampline/analysis/conductor"
	"clampline/diagram"
)

// ohmText writes an impedance with its unit, in mΩ where it is small.
func ohmText(ohms float64) string {
	if ohms < 1 {
		return analysis.FigureIn(ohms*1000, "mΩ")
	}
	return analysis.FigureIn(ohms, "Ω")
}

// parts writes resistance and reactance.
func parts(z complex128) string {
	return "R " + ohmText(real(z)) + ", X " + ohmText(imag(z))
}

// ohms adds a step whose result is an impedance. By the complex sum its numbers
// end with resistance and reactance.
func (w *writer) ohms(s analysis.Step, z complex128) {
	if !w.point {
		if s.Numbers != "" {
			s.Numbers += ", or "
		}
		s.Numbers += parts(z)
	}
	s.Result, s.Unit = cmplx.Abs(z), "Ω"
	if s.Result < 1 {
		s.Result, s.Unit = s.Result*1000, "mΩ"
	}
	w.add(s)
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

// divisor is by what the voltage between lines is divided together with the
// impedance of a line, as a symbol and as a number.
func divisor(s diagram.System) (symbol, number string) {
	if s.Phases() == 3 {
		return "√3", "1.732"
	}
	return "2", "2"
}

// source writes what a supply or generator gives.
func (w *writer) source(t int32) {
	terminal := &w.terminals[t]
	o, s, name := terminal.origin, terminal.system, w.nameOf(t)
	if o == nil || o.basis == infinite {
		w.line = 0
		w.say(name, "is taken to give any current: its own is not known", infiniteSource)
		return
	}
	w.line = o.line
	symbol, number := divisor(s)
	switch o.basis {
	case byCurrent:
		w.add(analysis.Step{Label: "fault current of " + name, Result: o.current, Unit: "A", Source: fromSheet})
		w.ohms(analysis.Step{
			Label: "impedance of " + name, Formula: fmt.Sprintf("Z = %s / (%s I)", w.voltageSymbol(), symbol),
			Numbers: fmt.Sprintf("%s / (%s × %s)%s", w.volts(s.Voltage), number, analysis.FigureIn(o.current, "A"), w.ratioText(o.xr)),
			Source:  w.sourceOf("X/R", o.xrSource),
		}, o.line)
	case byTransformer:
		w.leakage("transformer of "+name, o.percent, w.noLoad(s.Voltage), o.power, o.xr, s, w.sourceOf("impedance", o.zSource), o.line)
	case byReactance:
		w.leakage("generator "+name, o.percent, s.Voltage, o.power, o.xr, s, w.sourceOf("X''", o.zSource), o.line)
	}
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

// leakage writes the impedance that a per cent figure stands for.
func (w *writer) leakage(label string, percent, volts, power, xr float64, s diagram.System, source string, z complex128) {
	formula, factor := "Z = z V² / (100 S)", ""
	if isSingle(s) {
		formula, factor = "Z = z V² / (100 S × 2), half of the loop", " × 2"
	}
	numbers := fmt.Sprintf("%s × (%s)² / (100 × %s%s)%s", analysis.FigureIn(percent, "%"), analysis.FigureIn(volts, "V"), analysis.FigureIn(power/1000, "kVA"), factor, w.ratioText(xr))
	if w.iec && strings.HasPrefix(label, "generator") {
		formula += ", times K_G of IEC 60909-0"
	}
	w.ohms(analysis.Step{Label: "impedance of the " + label, Formula: formula, Numbers: numbers, Source: source}, z)
}

// transformer refers what has been added up to the other side of a transformer,
// and adds its own impedance.
func (w *writer) transformer(h hop) {
	near, far := w.terminals[h.near].system, w.terminals[h.far].system
	name := w.doc.NameOf(h.way.part.ID)
	ratio := far.Voltage / near.Voltage
	own := w.referred(h.way, h.far)
	if w.point {
		w.pointTransformer(h.way, near, far, name, own)
	} else {
		if w.line != 0 {
			w.line *= complex(ratio*ratio, 0)
			w.ohms(analysis.Step{
				Label: "referred over " + name, Formula: "Z (V2 / V1)²",
				Numbers: fmt.Sprintf("× (%s / %s)²", analysis.FigureIn(far.Voltage, "V"), analysis.FigureIn(near.Voltage, "V")),
			}, w.line)
		}
		data := h.way.part.Transformer
		w.leakage("transformer "+name, h.way.percent, w.noLoad(far.Voltage), data.Power, h.way.xr, far, w.transformerSource(h.way), own)
	}
	w.line += own
}

// transformerSource says where the per cent impedance of a transformer is from.
func (w *writer) transformerSource(way *way) string {
	source := fromSheet
	for i, f := range way.facts {
		if i == 0 {
			source = ""
		} else {
			source += "; "
		}
		source += f.text + ": " + f.source
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
	z := w.seenAt(h.under, h.far)
	w.line = z.line
	w.ohms(analysis.Step{
		Label:   "half of the loop behind " + w.doc.NameOf(h.way.part.ID),
		Formula: "(loop from line to neutral × (V2 / V1)² + z V² / (100 S)) / 2; of three phases the loop is (Z1 + Z2 + Z0) / 3",
		Source:  "symmetrical components",
	}, z.line)
}

// tap goes on along a feeder of one line and the neutral.
func (w *writer) tap(h hop) {
	loop, _ := w.loop(h.under.inletAt(w.building, h.far).from, h.near)
	w.line, w.since = loop/2, 0
	w.ohms(analysis.Step{
		Label:   "half of the loop from line to neutral at " + w.nameOf(h.near),
		Formula: "loop / 2; of three phases the loop is (Z1 + Z2 + Z0) / 3",
		Source:  "symmetrical components",
	}, w.line)
	w.feeder(h)
}

// feeder adds a feeder.
func (w *writer) feeder(h hop) {
	f := h.way.feeder
	name := w.doc.NameOf(f.ID)
	if !w.sized(f) {
		w.say(name, "without impedance, the safe side: the size of its conductors is not known", noSource)
		return
	}
	switch {
	case w.point:
		w.pointFeeder(h.way, w.terminals[h.far].system, name)
	case stated(f):
		w.statedFeeder(h.way, w.terminals[h.near].system, name)
	case w.iec:
		w.metricFeeder(h.way, w.terminals[h.near].system, name)
	default:
		w.tableFeeder(h.way, w.terminals[h.near].system, name)
	}
	w.line += h.way.line
	w.since += h.way.line
}

func (w *writer) tableFeeder(way *way, s diagram.System, name string) {
	per := tableNine(way.feeder, w.frequency(s)) * conductor.ThousandFeet
	w.ohms(analysis.Step{
		Label: name, Formula: "Z = L (R′ + j X′) / n",
		Numbers: fmt.Sprintf("%s × (%.4g + j %.4g) Ω per 1000 ft / %.0f", analysis.FigureIn(way.feeder.Length/conductor.Foot, "ft"), real(per), imag(per), parallel(way.feeder)),
		Source:  conductor.Source + ": " + conduitTaken(way.feeder.Raceway),
	}, way.line)
}

func (w *writer) metricFeeder(way *way, s diagram.System, name string) {
	per := metric(way.feeder, w.frequency(s)) * 1000
	w.ohms(analysis.Step{
		Label: name, Formula: "Z = L (ρ / A + j x′) / n",
		Numbers: fmt.Sprintf("%s × (%.4g + j %.4g) mΩ/m / %.0f", analysis.FigureIn(way.feeder.Length, "m"), real(per), imag(per), parallel(way.feeder)),
		Source:  metricSource,
	}, way.line)
}

// currents writes the currents from what the fault sees.
func (w *writer) currents() {
	s, z, f := w.system(), w.seenAt(w.from, w.at), w.under(w.from, w.at)
	volts, symbol := w.volts(s.Voltage), w.voltageSymbol()
	if f.ThreePhase > 0 {
		w.amps("three-phase fault current", "I = "+symbol+" / (√3 Z1)", fmt.Sprintf("%s / (1.732 × %s)", volts, ohmText(cmplx.Abs(z.line))), f.ThreePhase, "symmetrical components")
	}
	if f.LineLine > 0 {
		w.amps("line-to-line fault current", "I = "+symbol+" / (2 Z)", fmt.Sprintf("%s / (2 × %s)", volts, ohmText(cmplx.Abs(z.line))), f.LineLine, "symmetrical components, Z1 = Z2")
	}
	if f.LineNeutral > 0 || f.LineEarth > 0 && s.Earthing != diagram.Corner {
		w.neutral(s, z, f)
	}
	if f.LineEarth > 0 && s.Earthing == diagram.Corner {
		w.amps("line-to-earth fault current", "that between lines: one of them is earthed", "", f.LineEarth, "Kirchhoff's laws")
	}
	if reason := w.from.notes[w.terminals[w.at].place].lastLocal(); f.LineEarth == 0 && reason != "" {
		w.say("line-to-earth fault current", reason, "")
	}
}

func (w *writer) amps(label, formula, numbers string, amps float64, source string) {
	w.add(analysis.Step{Label: label, Formula: formula, Numbers: numbers, Result: amps, Unit: "A", Source: source})
}

// neutral writes the current to neutral and to earth.
func (w *writer) neutral(s diagram.System, z seen, f analysis.Fault) {
	volts, loop := w.rules.toNeutral(s, z)
	w.wayBack(s, z, loop)
	formula, numbers := "I = V to neutral / Z of the loop", fmt.Sprintf("%s / %s", analysis.FigureIn(volts, "V"), ohmText(cmplx.Abs(loop)))
	if returnOf(s) == zeroSequence {
		formula = "I = √3 " + w.voltageSymbol() + " / (Z1 + Z2 + Z0)"
		numbers = fmt.Sprintf("1.732 × %s / %s", w.volts(s.Voltage), ohmText(cmplx.Abs(loop)))
	}
	if f.LineNeutral > 0 {
		w.amps("line-to-neutral fault current", formula, numbers, f.LineNeutral, "symmetrical components")
	}
	if f.LineEarth > 0 {
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
		w.ohms(analysis.Step{
			Label: "Z0 at " + w.nameOf(w.at), Formula: "Z0 of the source or transformer that begins it, and 4 Z1 of each feeder", Numbers: numbers, Source: alike,
		}, z.back)
		return
	}
	w.ohms(analysis.Step{Label: "loop from line to neutral at " + w.nameOf(w.at), Formula: loopFormula(s), Numbers: numbers, Source: w.loopSource(s) + alike}, loop)
}

// loopSource says where half of a winding is from, where there is one.
func (r rules) loopSource(s diagram.System) string {
	switch {
	case s.Wiring == diagram.Single:
		return ""
	case r.point:
		return halfMagnitudeSource + "; "
	}
	return halfSource + "; "
}

func loopFormula(s diagram.System) string {
	if s.Wiring == diagram.Single {
		return "2 Z"
	}
	return "what feeds the winding at half its voltage, half of the winding, and both conductors"
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
