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

// basis is from what the impedance of a source was found.
type basis uint8

const (
	byCurrent basis = iota
	byTransformer
	byReactance
	infinite // nothing is known of it
)

// origin is a supply or generator, seen from its terminals.
type origin struct {
	basis    basis
	line     complex128 // Ω, of a line
	back     complex128 // Ω, way back
	hasBack  bool
	current  float64 // A, by current
	percent  float64 // on the power, by the others
	power    float64 // VA
	xr       float64 // reactance over resistance
	xrSource string
	zSource  string // of the per cent figure
	facts    []fact
}

const (
	fromSheet = "from the sheet"
	noSource  = "common practice, no source"

	infiniteSource = "infinite bus, the safe side; IEEE 141, from memory; check your edition"
)

// originOf returns what a source is.
func (r rules) originOf(part *device, s diagram.System) origin {
	if !known(s) {
		return origin{basis: infinite}
	}
	data := part.Source
	current := data.FaultCurrent
	if current < 1 && s.Lines() == 1 {
		current = data.EarthFaultCurrent
	}
	o := origin{basis: infinite, xrSource: fromSheet, zSource: fromSheet, xr: data.XR}
	switch {
	case current >= 1:
		o.basis, o.current = byCurrent, current
		r.byCurrent(&o, part, s)
	case data.Power >= 1 && part.Kind == diagram.Generator:
		o.basis, o.power, o.percent = byReactance, data.Power, data.Reactance
		r.byReactance(&o, part, s)
	case data.Power >= 1:
		o.basis, o.power, o.percent = byTransformer, data.Power, data.Reactance
		r.byTransformer(&o, part, s)
	default:
		o.facts = append(o.facts, unlimited(part))
	}
	r.findBack(&o, part, s)
	return o
}

func (o *origin) take(part *device, text, source string) {
	o.facts = append(o.facts, fact{part.ID, text, source, true})
}

// lines returns by what the voltage between lines is divided with the impedance
// of a line: √3 of three phases, 2 of a loop.
func lines(s diagram.System) float64 {
	if s.Phases() == 3 {
		return math.Sqrt(3)
	}
	return 2
}

func (r rules) byCurrent(o *origin, part *device, s diagram.System) {
	switch {
	case o.xr > 0:
	case part.Kind == diagram.Generator:
		o.xr, o.xrSource = usual.GeneratorXR, usual.GeneratorXRSource
	default:
		o.xr, o.xrSource = usual.SourceXR(o.current, r.iec)
	}
	if part.Source.XR <= 0 && !r.point {
		o.take(part, "its X/R is taken as "+analysis.Figure(o.xr), o.xrSource)
	}
	o.line = r.impedance(r.driving(s.Voltage)/(lines(s)*o.current), o.xr)
}

// isSingle reports whether what delivers a system has one phase. Two lines of a
// wye are led from a bank of three, of which the power is told.
func isSingle(s diagram.System) bool { return s.Phases() != 3 && s.Wiring != diagram.TwoOfWye }

// ohmsOf returns the impedance of one line of what has the per cent on the
// power at the voltage, Ω: of one phase half of the loop.
func ohmsOf(percent, volts, power float64, single bool) float64 {
	ohms := percent / 100 * volts * volts / power
	if single {
		return ohms / 2
	}
	return ohms
}

func (r rules) byTransformer(o *origin, part *device, s diagram.System) {
	made := usual.Transformer{Power: o.power, Single: isSingle(s), Utility: true}
	if o.percent <= 0 {
		o.percent, o.zSource = made.Impedance(r.iec)
		o.take(part, fmt.Sprintf("the impedance of its transformer is taken as %s %%", analysis.Figure(o.percent)), o.zSource)
	}
	o.percent = r.within(max(o.percent, 0.01))
	if o.xr <= 0 {
		o.xr, o.xrSource = made.XR(), usual.TransformerXRSource
		if !r.point {
			o.take(part, "the X/R of its transformer is taken as "+analysis.Figure(o.xr), o.xrSource)
		}
	}
	o.line = r.impedance(ohmsOf(o.percent, r.noLoad(s.Voltage), o.power, isSingle(s)), o.xr)
}

func (r rules) byReactance(o *origin, part *device, s diagram.System) {
	if o.percent <= 0 {
		o.percent, o.zSource = usual.Subtransient, usual.SubtransientSource
		o.take(part, fmt.Sprintf("its subtransient reactance is taken as %s %%", analysis.Figure(o.percent)), o.zSource)
	}
	o.percent = max(o.percent, 0.01)
	if o.xr <= 0 {
		o.xr, o.xrSource = usual.GeneratorXR, usual.GeneratorXRSource
		if !r.point {
			o.take(part, "its X/R is taken as "+analysis.Figure(o.xr), o.xrSource)
		}
	}
	o.line = r.impedance(r.generatorFactor(o.percent)*ohmsOf(o.percent, s.Voltage, o.power, isSingle(s)), o.xr)
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

// unlimited says what stands for a source of which nothing is known.
func unlimited(part *device) fact {
	return fact{part.ID, "is taken to give any current behind the first transformer: its own is not known", infiniteSource, true}
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
	case o.basis == infinite:
	case kind == zeroSequence && part.Kind == diagram.Generator:
		o.back = o.line * usual.ZeroShare
		o.take(part, "its zero-sequence reactance is taken as a quarter of the subtransient one", usual.ZeroShareSource)
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
