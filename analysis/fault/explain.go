package fault

import (
	"fmt"
	"math"
	"slices"

	"clampline/analysis"
	"clampline/analysis/usual"
	"clampline/diagram"
)

// Explain returns the fault current at one terminal with its working and all
// its assumptions, and false where Solve has none. It costs as much as two
// Solves: the working names what the other method gives.
func Explain(doc *diagram.Document, topology *analysis.Topology, at diagram.End) (analysis.Fault, bool) {
	parts := devicesOf(doc)
	b := newBuilding(doc, topology, parts, rulesOf(doc, parts))
	t := b.numberOf(at)
	if t == none {
		return analysis.Fault{}, false
	}
	b.feedAll()
	f, from, ok := b.faultAt(t, math.MaxInt)
	if !ok {
		return analysis.Fault{}, false
	}
	if from == nil {
		return f, true // nothing was computed
	}
	w := &writer{building: b, at: t, fault: f, from: from}
	f.Working = w.working(topology)
	return f, true
}

// numberOf returns the number of a terminal, or none.
func (b *building) numberOf(at diagram.End) int32 {
	return int32(slices.IndexFunc(b.terminals, func(t terminal) bool { return t.at == at }))
}

// writer writes down how the current at one terminal came about.
type writer struct {
	*building
	at    int32
	fault analysis.Fault
	from  *alternative
	steps analysis.Working
	name  string // of what is written about

	// What has been added up so far: the impedance of a line at the voltage of
	// the terminal reached.
	line complex128

	// The way back: where it was last begun or passed on, what it was there, and
	// what the lines have added since.
	begun string
	back  complex128
	since complex128
}

func (w *writer) add(s analysis.Step) { w.steps = append(w.steps, s) }

func (w *writer) say(label, text, source string) {
	w.add(analysis.Step{Label: label, Text: text, Source: source})
}

// system is that of the terminal that is explained.
func (w *writer) system() diagram.System { return w.terminals[w.at].system }

func (w *writer) working(topology *analysis.Topology) analysis.Working {
	if !w.fault.Known {
		w.say("fault current", w.fault.Why, "")
		w.alternatives()
		return w.steps
	}
	method, source := w.method()
	w.say("method", method+"; "+w.fault.Why, source)
	for _, h := range w.path(w.from, w.at) {
		w.hop(h)
	}
	w.total()
	var f analysis.Fault
	w.currents(&f, w.terminals[w.at].part, w.system(), w.seenAt(w.from, w.at), w)
	if reason := w.from.notes[w.terminals[w.at].place].lastLocal(); f.LineEarth == 0 && reason != "" {
		w.say("line-to-earth fault current", reason, "")
	}
	w.alternatives()
	xr := w.otherMethod(topology)
	w.offset(xr)
	return w.steps
}

// method says by which method and practice the current was found.
func (w *writer) method() (text, source string) {
	text = "by impedances"
	if w.point {
		text = "point-to-point method, of magnitudes alone"
	}
	switch {
	case w.iec:
		return text + fmt.Sprintf("; voltage factor c = %.2f, conductors at 20 °C", voltageFactor), voltageFactorSource
	case w.point:
		return text, constantSource
	}
	return text + "; nominal voltage, conductors at 75 °C", "IEEE 141, from memory; check your edition"
}

// hop writes one stretch of the way.
func (w *writer) hop(h hop) {
	if h.source != none || h.way != nil && h.way.isTransformer() {
		w.begun, w.back, w.since = w.nameOf(h.far), w.seenAt(h.under, h.far).back, 0
	}
	w.name = w.nameOf(h.far)
	switch {
	case h.source != none:
		source := &w.terminals[h.source]
		w.line = w.originOf(source.part, source.system, w).line // 0 of one that gives any current
	case h.link != nil && h.link.passage == throw:
		w.say(w.name, "on "+h.link.position, fromSheet)
	case h.link != nil && h.link.passage == blind:
		w.line = 0
		w.say(w.name, h.link.why+"; what lies behind it is taken to give any current, the safe side", noSource)
	case h.link != nil && h.link.passage == toNeutral:
		w.toNeutral(h)
	case h.link != nil && w.isTapped(h.link):
		w.tap(h)
	case h.way.feeder != nil:
		w.feeder(h)
	case h.way.isTransformer():
		w.transformer(h)
	default:
		w.say(w.name, "closed", fromSheet)
	}
}

// total writes what a fault sees, where the way alone is not all that feeds it.
func (w *writer) total() {
	z := w.seenAt(w.from, w.at).line
	before, name, at := w.line, "Z of half the loop", " at "+w.nameOf(w.at)
	if w.system().Phases() == 3 {
		name = "Z1"
	}
	w.line = z
	if !differ(before, z) {
		w.ohms(name+at, "sum of the above", "", "Kirchhoff's laws", z)
		return
	}
	_, _, motors := usual.Motor(usual.LargeMotor, w.iec)
	w.ohms(name+" by this way", "sum of the above", "", "", before)
	w.ohms(name+at, "the network reduced to this bus: with motors, other sources and other ways", "", "Kirchhoff's laws; motors: "+motors, z)
}

// alternatives lists what the other positions of switches give.
func (w *writer) alternatives() {
	s := w.sectionOf(w.at)
	if len(s.alternatives) < 2 {
		return
	}
	for _, a := range s.alternatives {
		if a == w.from {
			continue
		}
		if f := w.under(a, w.at); f.Known {
			w.amps("else "+a.wording(false), highest, "", f.Highest(), "")
		} else {
			w.say("else "+a.wording(false), f.Why, "")
		}
	}
}

// highest is the formula of a figure that stands for all currents of a fault.
const highest = "the highest of its currents"

// otherMethod writes what the method that is not chosen gives, and returns the
// ratio of reactance to resistance of the complex sum.
func (w *writer) otherMethod(topology *analysis.Topology) float64 {
	other := w.rules
	other.point = !other.point
	b := newBuilding(w.doc, topology, w.parts, other)
	b.feedAll()
	f, _, _ := b.faultAt(w.at, 0)
	label, source := "by the point-to-point method", constantSource
	if w.point {
		label, source = "by impedances", "symmetrical components"
	}
	w.amps(label, highest, "", f.Highest(), source)
	return max(w.fault.XR, f.XR)
}

// offset writes what the first half-cycle has where the fault begins at zero of
// the voltage.
func (w *writer) offset(xr float64) {
	if xr <= 0 {
		return
	}
	amps := w.fault.Highest()
	numbers := fmt.Sprintf("X/R %s, %s", analysis.Figure(xr), analysis.FigureIn(amps, "A"))
	if w.iec {
		w.amps("first peak", "κ √2 I, κ = 1.02 + 0.98 e^(−3 R/X)", numbers, peakFactorIEC(xr)*amps, "IEC 60909-0, from memory; check your edition")
		return
	}
	w.amps("asymmetrical, rms of the first half-cycle", "I √(1 + 2 e^(−2π R/X))", numbers, halfCycleFactor(xr)*amps, offsetSource)
	w.amps("first peak", "√2 I (1 + e^(−π R/X))", numbers, peakFactor(xr)*amps, offsetSource)
}

const offsetSource = "offset of a circuit of R and L; IEEE C37.13, from memory; check your edition"

// halfCycleFactor returns the rms of the first half-cycle over the symmetrical
// rms for a ratio of reactance to resistance.
func halfCycleFactor(xr float64) float64 { return math.Sqrt(1 + 2*math.Exp(-2*math.Pi/xr)) }

// peakFactor returns the first peak over the symmetrical rms.
func peakFactor(xr float64) float64 { return math.Sqrt2 * (1 + math.Exp(-math.Pi/xr)) }

// peakFactorIEC returns the same by IEC 60909-0 (from memory).
func peakFactorIEC(xr float64) float64 { return math.Sqrt2 * (1.02 + 0.98*math.Exp(-3/xr)) }
