package fault

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// way joins two terminals: a feeder, the windings of a transformer, or a throw
// of a transfer switch that stands the other way round.
type way struct {
	from, to int32
	feeder   *diagram.Feeder // nil within a part
	part     *device         // transformer or transfer switch, nil of a feeder
	closed   bool
	line     complex128 // Ω, of a line at the voltage of to; 0 joins the two
	ratio    float64    // voltage of to over that of from
	facts    []fact
	percent  float64 // taken for a transformer
	xr       float64
}

func (w *way) other(t int32) int32 {
	if w.from == t {
		return w.to
	}
	return w.from
}

func (w *way) isTransformer() bool { return w.part != nil && w.part.Kind == diagram.Transformer }

// passage is how a link leads current from one section to another.
type passage uint8

const (
	throw     passage = iota // of a transfer switch
	closing                  // a switch that is open and would have to be closed
	toNeutral                // a single-phase transformer between a line and the neutral
	tap                      // a feeder of one line and the neutral of a system that has more lines
	blind                    // a transformer of which too little is known
)

// link leads from one section to another that takes its currents from it.
type link struct {
	passage  passage
	from, to int32 // terminals
	way      int32 // the feeder or transformer, or none
	position string
	why      string // of a blind one: what is missing
}

// addFeeder adds a feeder, the two links of one whose switch is open, or the
// link of one that takes one line and the neutral. What joins two voltages is
// left out: the drawing is at fault there.
func (b *building) addFeeder(from, to int32, f *diagram.Feeder) {
	if from == to {
		return
	}
	system := b.terminals[from].system
	w := way{from: from, to: to, feeder: f, ratio: 1, closed: !f.Switch.Open && alike(system, b.terminals[to].system)}
	w.line = b.run(f, b.frequency(system), nil)
	w.facts = b.factsOf(f)
	b.ways = append(b.ways, w)
	i := int32(len(b.ways) - 1)
	switch {
	case f.Switch.Open:
		b.links = append(b.links, link{passage: closing, from: from, to: to, way: i}, link{passage: closing, from: to, to: from, way: i})
	case b.isTap(from, to):
		b.links = append(b.links, link{passage: tap, from: from, to: to, way: i})
	case b.isTap(to, from):
		b.links = append(b.links, link{passage: tap, from: to, to: from, way: i})
	}
}

// isTap reports whether what is at the second terminal takes one line and the
// neutral of the first.
func (b *building) isTap(from, to int32) bool {
	near, far := b.terminals[from].system, b.terminals[to].system
	return known(near) && known(far) && near.Lines() > 1 && near.Neutral && far.Lines() == 1 && far.Neutral &&
		analysis.SameVoltage(far.Voltage, near.LineToNeutral())
}

// alike reports whether two terminals that a feeder joins carry one system, as
// far as is known, or one of them two lines of the other: half of the loop
// between those is Z1 of three phases.
func alike(a, b diagram.System) bool {
	if !known(a) || !known(b) {
		return true
	}
	if !analysis.SameVoltage(a.Voltage, b.Voltage) {
		return false
	}
	return a.Wiring == b.Wiring && a.Lines() == b.Lines() || arePair(a, b) || arePair(b, a)
}

// arePair reports whether a system is two lines of another.
func arePair(pair, whole diagram.System) bool {
	if pair.Lines() != 2 || whole.Lines() != 3 {
		return false
	}
	switch whole.Wiring {
	case diagram.Wye:
		return pair.Wiring == diagram.TwoOfWye
	case diagram.HighLeg:
		return pair.Wiring == diagram.Split
	}
	return pair.Wiring == diagram.Single
}

// addWithin adds what joins the terminals of one part.
func (b *building) addWithin(first int32, part *device) {
	switch part.Kind {
	case diagram.Transformer:
		b.addTransformer(first, part)
	case diagram.TransferSwitch:
		b.addThrow(first, first+2, part, "normal")
		b.addThrow(first+1, first+2, part, "emergency")
	}
}

// addThrow adds one throw of a transfer switch: a link from its side, whatever
// the position, or a joint where power comes the other way.
func (b *building) addThrow(side, common int32, part *device, position string) {
	near, far := b.terminals[side].node, b.terminals[common].node
	if near.Up == far {
		b.ways = append(b.ways, way{from: side, to: common, part: part, ratio: 1, closed: true})
		return
	}
	b.links = append(b.links, link{passage: throw, from: side, to: common, way: none, position: position})
}

// addTransformer adds the windings of a transformer.
func (b *building) addTransformer(first int32, part *device) {
	p, s := first, first+1
	w := way{from: p, to: s, part: part}
	i := int32(len(b.ways))
	why := b.unusable(&w)
	if why == "" {
		b.findLeakage(&w)
	}
	near, far := p, s
	if b.terminals[p].node.Up == b.terminals[s].node {
		near, far = s, p
	}
	switch {
	case why != "":
		b.links = append(b.links, link{passage: blind, from: near, to: far, way: i, why: why})
		w.facts = []fact{{part.ID, "is taken to give any current behind the next transformer: too little of it is known", infiniteSource, true}}
	case b.isToNeutral(&w):
		b.links = append(b.links, link{passage: toNeutral, from: p, to: s, way: i})
	default:
		w.closed = true
	}
	b.ways = append(b.ways, w)
}

// unusable says what keeps a transformer from being counted, or nothing.
func (b *building) unusable(w *way) string {
	name := b.doc.NameOf(w.part.ID)
	primary, secondary := &b.terminals[w.from], &b.terminals[w.to]
	near, far := primary, secondary
	if primary.node.Up == secondary.node {
		near, far = secondary, primary
	}
	switch {
	case !known(near.system):
		return "the system that arrives at " + name + " is not known"
	case !known(far.system):
		return "the system on the far side of " + name + " is not known"
	case near.system.Phases() == 1 && !isSingle(far.system):
		return fmt.Sprintf("the two sides of %s do not fit each other: %s and %s", name, near.system, far.system)
	case w.part.Transformer.Power < 1:
		return "the power of " + name + " is not known: read it from its nameplate, with its per cent impedance"
	}
	return ""
}

// isToNeutral reports whether a single-phase transformer takes its supply from
// one line and the neutral of a system that has more lines.
func (b *building) isToNeutral(w *way) bool {
	primary, secondary := b.terminals[w.from].system, b.terminals[w.to].system
	made := w.part.Transformer.Primary
	if secondary.Phases() != 1 || returnOf(primary) == noReturn || !primary.Neutral {
		return false
	}
	if made.Known() {
		return made.Lines() == 1
	}
	return false
}

// findLeakage finds the impedance of a transformer.
func (b *building) findLeakage(w *way) {
	w.ratio = b.terminals[w.to].system.Voltage / b.terminals[w.from].system.Voltage
	w.percent, w.xr = w.part.Transformer.Impedance, w.part.Transformer.XR
	p := b.plateOf(w, w.to)
	t := taking{rules: b.rules, record: w.part.ID, its: "its "}
	t.fillIn(&p, false)
	w.percent, w.xr, w.line, w.facts = p.percent, p.xr, b.leakage(p), t.facts
}

// plateOf returns the nameplate of a transformer at the voltage of one side.
func (b *building) plateOf(w *way, side int32) plate {
	primary, secondary := b.terminals[w.from].system, b.terminals[w.to].system
	return plate{
		percent: w.percent, volts: b.noLoad(b.terminals[side].system.Voltage), power: w.part.Transformer.Power, xr: w.xr,
		single: isSingle(primary) || isSingle(secondary),
	}
}
