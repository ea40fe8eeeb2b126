package fault

import (
	"cmp"
	"fmt"
	"math"
	"math/cmplx"

	"clampline/analysis"
	"clampline/analysis/usual"
	"clampline/diagram"
)

// origin is a supply or generator, seen from its terminals.
type origin struct {
	infinite bool       // nothing is known of it
	line     complex128 // Ω, of a line
	back     complex128 // Ω, way back
	hasBack  bool
	facts    []fact
}

const (
	fromSheet = analysis.FromSheet
	noSource  = analysis.CommonPractice

	infiniteSource = "infinite bus, the safe side; IEEE 141, from memory; check your edition"
)

// originOf returns what a source is.
func (r rules) originOf(part *device, s diagram.System, w *writer) origin {
	o := origin{infinite: !known(s)}
	if !o.infinite {
		r.findLine(&o, part, s, w)
		r.findBack(&o, part, s)
	}
	if o.infinite && w != nil {
		w.say(w.name, "is taken to give any current: its own is not known", infiniteSource)
	}
	return o
}

// findLine finds the impedance of a line of a source.
func (r rules) findLine(o *origin, part *device, s diagram.System, w *writer) {
	data := part.Source
	current := data.FaultCurrent
	if current < 1 && s.Lines() == 1 {
		current = data.EarthFaultCurrent
	}
	switch {
	case current >= 1:
		r.byCurrent(o, current, part, s, w)
	case data.Power >= 1 && part.Kind == diagram.Generator:
		r.byReactance(o, part, s, w)
	case data.Power >= 1:
		r.byTransformer(o, part, s, w)
	default:
		o.infinite = true
		o.facts = append(o.facts, fact{part.ID, "is taken to give any current behind the first transformer: its own is not known", infiniteSource, true})
	}
}

// taking takes what is usual of a record where the sheet does not state it.
type taking struct {
	rules
	record   diagram.ID
	its, own string // words before the name of a figure, and after it
	facts    []fact // what was taken
}

// orUsual returns what is stated, or what is usual, with its source. A ratio, which
// has no unit, counts for nothing by point to point and is not noted there.
func (t *taking) orUsual(what string, stated, usual float64, unit, source string) (taken float64, from string) {
	if stated > 0 {
		return stated, fromSheet
	}
	if unit != "" || !t.point {
		t.facts = append(t.facts, fact{t.record, t.its + what + t.own + " is taken as " + analysis.Figure(usual) + unit, source, true})
	}
	return usual, source
}

// fillIn takes what is not stated of the nameplate of a transformer, and returns
// where its per cent are from.
func (t *taking) fillIn(p *plate, utility bool) (source string) {
	made := usual.Transformer{Power: p.power, Single: p.single, Utility: utility}
	percent, source := made.Impedance(t.iec)
	percent, source = t.orUsual("impedance", p.percent, percent, " %", source)
	p.percent = t.within(max(percent, 0.01))
	p.xr, _ = t.orUsual("X/R", p.xr, made.XR(), "", usual.TransformerXRSource)
	return source
}

// divisor is by what the voltage between lines is divided with the impedance of a
// line, and how that is written.
type divisor struct {
	value          float64
	symbol, number string
}

// lines returns √3 of three phases, 2 of a loop.
func lines(s diagram.System) divisor {
	if s.Phases() == 3 {
		return divisor{math.Sqrt(3), "√3", "1.732"}
	}
	return divisor{2, "2", "2"}
}

func (r rules) byCurrent(o *origin, current float64, part *device, s diagram.System, w *writer) {
	usualXR, source := usual.SourceXR(current, r.iec)
	if part.Kind == diagram.Generator {
		usualXR, source = usual.GeneratorXR, usual.GeneratorXRSource
	}
	t := taking{rules: r, record: part.ID, its: "its "}
	xr, source := t.orUsual("X/R", part.Source.XR, usualXR, "", source)
	by := lines(s)
	o.line, o.facts = r.impedance(r.driving(s.Voltage)/(by.value*current), xr), t.facts
	if w != nil {
		w.add(analysis.Step{Label: "fault current of " + w.name, Result: current, Unit: "A", Source: fromSheet})
		w.ohms("impedance of "+w.name, fmt.Sprintf("Z = %s / (%s I)", w.voltageSymbol(), by.symbol),
			fmt.Sprintf("%s / (%s × %s)%s", w.volts(s.Voltage), by.number, analysis.FigureIn(current, "A"), w.ratioText(xr)), w.sourceOf("X/R", source), o.line)
	}
}

// isSingle reports whether what delivers a system has one phase. Two lines of a
// wye are led from a bank of three, of which the power is told.
func isSingle(s diagram.System) bool { return s.Phases() != 3 && s.Wiring != diagram.TwoOfWye }

// plate is what a nameplate says of the impedance of a transformer or generator.
type plate struct {
	percent   float64 // on its power
	volts     float64 // its own, V
	power     float64 // VA
	xr        float64
	single    bool // of one phase, of which half of the loop counts
	generator bool
}

// leakage returns the impedance of one line of what has the nameplate, Ω.
func (r rules) leakage(p plate) complex128 {
	ohms := p.percent / 100 * p.volts * p.volts / p.power
	if p.single {
		ohms /= 2
	}
	if p.generator {
		ohms *= r.generatorFactor(p.percent)
	}
	return r.impedance(ohms, p.xr)
}

// leakage writes how an impedance came from a nameplate.
func (w *writer) leakage(label string, p plate, source string, z complex128) {
	formula, factor := "Z = z V² / (100 S)", ""
	if p.single {
		formula, factor = "Z = z V² / (100 S × 2), half of the loop", " × 2"
	}
	if w.iec && p.generator {
		formula += ", times K_G of IEC 60909-0"
	}
	w.ohms("impedance of the "+label, formula, fmt.Sprintf("%s × (%s)² / (100 × %s%s)%s", analysis.FigureIn(p.percent, "%"), analysis.FigureIn(p.volts, "V"),
		analysis.FigureIn(p.power/1000, "kVA"), factor, w.ratioText(p.xr)), source, z)
}

func (r rules) byTransformer(o *origin, part *device, s diagram.System, w *writer) {
	p := plate{percent: part.Source.Reactance, volts: r.noLoad(s.Voltage), power: part.Source.Power, xr: part.Source.XR, single: isSingle(s)}
	t := taking{rules: r, record: part.ID, its: "the ", own: " of its transformer"}
	source := t.fillIn(&p, true)
	o.line, o.facts = r.leakage(p), t.facts
	if w != nil {
		w.leakage("transformer of "+w.name, p, w.sourceOf("impedance", source), o.line)
	}
}

func (r rules) byReactance(o *origin, part *device, s diagram.System, w *writer) {
	p := plate{volts: s.Voltage, power: part.Source.Power, single: isSingle(s), generator: true}
	t := taking{rules: r, record: part.ID, its: "its "}
	percent, source := t.orUsual("subtransient reactance", part.Source.Reactance, usual.Subtransient, " %", usual.SubtransientSource)
	p.percent = max(percent, 0.01)
	p.xr, _ = t.orUsual("X/R", part.Source.XR, usual.GeneratorXR, "", usual.GeneratorXRSource)
	o.line, o.facts = r.leakage(p), t.facts
	if w != nil {
		w.leakage("generator "+w.name, p, w.sourceOf("X''", source), o.line)
	}
}

// generatorFactor returns K_G of IEC 60909-0 (from memory) for a generator on
// the network's own voltage, or 1: the voltage behind it is not that of the
// network.
func (r rules) generatorFactor(percent float64) float64 {
	if !r.iec {
		return 1
	}
	return voltageFactor / (1 + percent/100*usual.GeneratorSine)
}

// findBack finds the way back of a source that has one.
func (r rules) findBack(o *origin, part *device, s diagram.System) {
	if !hasReturn(s) {
		return
	}
	o.hasBack = true
	kind := returnOf(s)
	switch told := part.Source.EarthFaultCurrent; {
	case told >= 1:
		o.back = r.backByCurrent(o.line, told, kind, s)
	case o.infinite:
	case kind == zeroSequence && part.Kind == diagram.Generator:
		o.back = o.line * usual.ZeroShare
		o.facts = append(o.facts, fact{part.ID, "its zero-sequence reactance is taken as a quarter of the subtransient one", usual.ZeroShareSource, true})
	case kind == zeroSequence:
		o.back = o.line
	case s.Wiring == diagram.HighLeg:
		o.back = r.bank(0, o.line) / 2
	default:
		o.back = r.half(o.line)
	}
}

// backByCurrent returns the way back of a source whose current from one line to
// earth is told: Z0 of three phases, at the angle of Z1.
func (r rules) backByCurrent(line complex128, current float64, kind returning, s diagram.System) complex128 {
	angle := cmp.Or(line, 1i)
	if r.point {
		angle = 1
	}
	angle /= complex(cmplx.Abs(angle), 0)
	ohms := r.driving(s.Voltage) / 4 / current
	if kind == zeroSequence {
		ohms = max(0, math.Sqrt(3)*r.driving(s.Voltage)/current-2*cmplx.Abs(line))
	}
	return angle * complex(ohms, 0)
}

// missing says what to ask for where nothing is known of a source.
func missing(doc *diagram.Document, part *device, s diagram.System) string {
	name := doc.NameOf(part.ID)
	if !known(s) {
		return "the system of " + name + " is not known: give it a wiring and a voltage"
	}
	if part.Kind == diagram.Generator {
		return "the current of " + name + " is not known: read its power and subtransient reactance from its nameplate"
	}
	return "the fault current of " + name + " is not known: ask the utility for it with its X/R, from line to earth as well, or for the power and per cent impedance of its transformer"
}
