package fault

import "cmp"

// enter returns what an alternative of a section gives to the next one over a
// link, and false where nothing of it arrives.
func (b *building) enter(number int32, from *alternative) (inlet, bool) {
	l := &b.links[number]
	in := inlet{link: number, from: from}
	bus := b.bus[l.from]
	if why := from.why[bus]; why != "" {
		in.why = why
	}
	if !known(b.terminals[l.from].system) {
		in.why = cmp.Or(in.why, "the system that arrives at "+b.nameOf(l.from)+" is not known")
		return in, true
	}
	if l.passage == blind {
		in.why = l.why
		return in, true
	}
	if from.line.loose[bus] {
		return in, false
	}
	if l.passage == toNeutral {
		return b.enterToNeutral(in, l), true
	}
	if b.isTapped(l) {
		return b.enterTap(in, l)
	}
	volts := complex(b.terminals[l.from].system.Voltage, 0)
	if !alike(b.terminals[l.from].system, b.terminals[l.to].system) {
		return in, false
	}
	in.joins = true
	in.line = b.ahead(l, number, from) * volts * volts
	in.hasBack = from.back != nil && !from.back.loose[bus]
	if in.hasBack {
		in.back = from.back.z[bus] * volts * volts
	}
	if l.passage == closing {
		w := &b.ways[l.way]
		in.line += w.line
		in.back += w.line * returnOf(b.terminals[l.from].system).times()
	}
	return in, true
}

// ahead returns the impedance of what feeds a link without what lies beyond the
// link, divided by the square of the voltage.
func (b *building) ahead(l *link, number int32, from *alternative) complex128 {
	z := from.line.z[b.bus[l.from]]
	beyond := b.backfeed(number)
	if z == 0 || beyond == 0 {
		return z
	}
	return 1 / (1/z - beyond)
}

// isTapped reports whether a link leads one line and the neutral on, or would
// with its switch closed.
func (b *building) isTapped(l *link) bool {
	return l.passage == tap || l.passage == closing && b.isTap(l.from, l.to)
}

// enterTap finds what comes along a feeder of one line and the neutral: half of
// the loop from line to neutral, and the feeder.
func (b *building) enterTap(in inlet, l *link) (inlet, bool) {
	loop, found := b.loop(in.from, l.from)
	if !found {
		return in, false
	}
	in.joins = true
	in.line = loop/2 + b.ways[l.way].line
	return in, true
}

// enterToNeutral finds what comes through a single-phase transformer from one
// line and the neutral: the loop from line to neutral, and the transformer.
func (b *building) enterToNeutral(in inlet, l *link) inlet {
	w := &b.ways[l.way]
	primary, secondary := b.terminals[l.from].system, b.terminals[l.to].system
	loop, _ := b.loop(in.from, l.from)
	ratio := secondary.Voltage / toNeutralVoltage(primary)
	above := loop / 2 * complex(ratio*ratio, 0)
	in.line = above + w.line
	in.hasBack = hasReturn(secondary)
	if in.hasBack {
		in.back = b.beginReturn(secondary, above, w.line)
	}
	in.why = ""
	return in
}

// loop returns the impedance from a line to the neutral at a terminal in one way
// of feeding it, Ω, and whether there is a way back: (2 Z1 + Z0) / 3 of three
// phases.
func (b *building) loop(a *alternative, t int32) (complex128, bool) {
	z := b.seenAt(a, t)
	switch {
	case !z.hasBack:
		return 0, false
	case returnOf(b.terminals[t].system) == zeroSequence:
		return (2*z.line + z.back) / 3, true
	}
	return 2 * z.back, true
}

// backfeed returns what lies beyond a link feeds back over it, VA: motors, and
// sources that run in parallel. What lies beyond in a circle is not counted.
func (b *building) backfeed(number int32) complex128 {
	l := &b.links[number]
	if l.passage != throw && l.passage != toNeutral && l.passage != tap {
		return 0
	}
	power := b.inwardOf(b.terminals[l.to].section, b.bus[l.to])
	if power == 0 || l.passage == throw {
		return power
	}
	w := &b.ways[l.way]
	primary, volts := b.terminals[l.from].system, complex(b.terminals[l.to].system.Voltage, 0)
	power = 1 / (1/power + w.line/(volts*volts)) // volts are known: it was found usable
	if primary.Phases() == 3 {
		return power / 2 // of a loop, spread over three lines
	}
	return power
}

// inwardOf returns what a section feeds at one of its buses out of itself, VA.
func (b *building) inwardOf(number, bus int32) complex128 {
	s := &b.sections[number]
	if s.inward == nil {
		s.inward = make([]complex128, s.buses) // what asks for it meanwhile gets nothing
		s.inward = b.findInward(number)
	}
	return s.inward[bus]
}

func (b *building) findInward(number int32) []complex128 {
	s := &b.sections[number]
	out := make([]complex128, s.buses)
	net := b.lineNetwork(number)
	if net.held == nil || !feeds(net.feeding) {
		return out
	}
	for bus := range net.held { // what gives any current is no motor
		net.held[bus] = false
	}
	order := make([]int32, 0, s.buses)
	if len(s.terminals) > 0 {
		order = b.grow(number, s.terminals[:1]).eliminationOrder(b, s.buses)
	}
	r, ok := net.reduce(order)
	if !ok {
		return out
	}
	for bus, z := range r.z {
		if !r.loose[bus] && z != 0 {
			out[bus] = 1 / z
		}
	}
	return out
}

func feeds(feeding []complex128) bool {
	for _, power := range feeding {
		if power != 0 {
			return true
		}
	}
	return false
}
