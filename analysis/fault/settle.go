package fault

import "clampline/diagram"

// solve finds the impedances at every bus of a section for one way of feeding
// it.
func (b *building) solve(a *alternative) {
	s := &b.sections[a.section]
	roots := append([]int32(nil), s.sources...)
	for i := range a.inlets {
		roots = append(roots, b.links[a.inlets[i].link].to)
	}
	a.tree = b.grow(a.section, roots)
	order := a.tree.eliminationOrder(b, s.buses)

	net := b.lineNetwork(a.section)
	b.feedLines(net, a)
	a.line = b.reduceOrPrune(a, net, order)
	b.findWhy(a)
	if back := b.backNetwork(a); back != nil {
		a.back = b.reduceOrPrune(a, back, order)
	}
	b.findNotes(a)
}

// reduceOrPrune reduces a network, or where its loops are too many the tree
// within it.
func (b *building) reduceOrPrune(a *alternative, net *network, order []int32) *reduction {
	if r, ok := net.copied().reduce(order); ok {
		return r
	}
	a.partial = true
	keep := map[[2]int32]bool{}
	for _, w := range a.tree.up {
		if w != none {
			keep[pair(b.bus[b.ways[w].from], b.bus[b.ways[w].to])] = true
		}
	}
	var kept []branch
	for _, k := range net.branches {
		if p := pair(k.a, k.b); keep[p] {
			kept = append(kept, k)
		}
	}
	net.branches = kept
	r, _ := net.reduce(order)
	return r
}

func pair(a, b int32) [2]int32 { return [2]int32{min(a, b), max(a, b)} }

func (n *network) copied() *network {
	out := *n
	out.feeding = append([]complex128(nil), n.feeding...)
	return &out
}

// lineNetwork returns the lines of a section with what feeds them out of the
// section itself: sources, motors, and what lies beyond its links.
func (b *building) lineNetwork(number int32) *network {
	s := &b.sections[number]
	net := &network{feeding: make([]complex128, s.buses), held: make([]bool, s.buses)}
	net.branches = make([]branch, 0, len(s.ways))
	for _, i := range s.ways {
		w := &b.ways[i]
		net.branches = append(net.branches, branch{b.bus[w.from], b.bus[w.to], power(b.volts(w.to, w.from), w.line)})
	}
	for _, i := range s.terminals {
		t := &b.terminals[i]
		if known(t.system) {
			net.feeding[b.bus[i]] += b.motor(t.part, t.system)
		}
	}
	for _, i := range s.out {
		net.feeding[b.bus[b.links[i].from]] += b.backfeed(i)
	}
	for _, i := range s.sources {
		o := b.terminals[i].origin
		if o.infinite {
			net.held[b.bus[i]] = true
			continue
		}
		net.feeding[b.bus[i]] += power(b.volts(i, i), o.line)
	}
	return net
}

// volts returns the voltage of the first terminal, or where its system is not
// known that of the second. Where neither is known any does: no current is found
// there.
func (b *building) volts(first, second int32) float64 {
	for _, t := range [2]int32{first, second} {
		if s := b.terminals[t].system; known(s) {
			return s.Voltage
		}
	}
	return 1
}

// power returns the square of a voltage over an impedance, VA.
func power(volts float64, z complex128) complex128 { return complex(volts*volts, 0) / z }

// feedLines adds what feeds a section from others.
func (b *building) feedLines(net *network, a *alternative) {
	for i := range a.inlets {
		in := &a.inlets[i]
		to := b.links[in.link].to
		if in.line == 0 { // as one that is not known is
			net.held[b.bus[to]] = true
			continue
		}
		net.feeding[b.bus[to]] += power(b.volts(to, b.links[in.link].from), in.line)
	}
}

// findWhy marks the buses whose current is not known: those that no transformer
// parts from what gives any current.
func (b *building) findWhy(a *alternative) {
	s := &b.sections[a.section]
	a.why = make([]string, s.buses)
	var queue []int32
	mark := func(t int32, why string) {
		if bus := b.bus[t]; a.why[bus] == "" {
			a.why[bus] = why
		}
		queue = append(queue, t)
	}
	for _, t := range s.sources {
		if b.terminals[t].origin.infinite {
			mark(t, missing(b.doc, b.terminals[t].part, b.terminals[t].system))
		}
	}
	for i := range a.inlets {
		if in := &a.inlets[i]; in.why != "" {
			mark(b.links[in.link].to, in.why)
		}
	}
	if len(queue) == 0 {
		return
	}
	seen := make([]bool, len(s.terminals))
	for done := 0; done < len(queue); done++ {
		near := queue[done]
		for _, i := range b.touching[near] {
			w := &b.ways[i]
			far := w.other(near)
			if place := b.terminals[far].place; !w.isTransformer() && !seen[place] {
				seen[place] = true
				mark(far, a.why[b.bus[near]])
			}
		}
	}
}

// backNetwork returns the way back of a section, or nil where nothing in it has
// one.
func (b *building) backNetwork(a *alternative) *network {
	s := &b.sections[a.section]
	net := &network{feeding: make([]complex128, s.buses), held: make([]bool, s.buses)}
	feed := func(t int32, z complex128) {
		if z == 0 {
			net.held[b.bus[t]] = true
			return
		}
		net.feeding[b.bus[t]] += power(b.volts(t, t), z)
	}
	begun := false
	for _, t := range s.sources {
		if o := b.terminals[t].origin; o.hasBack {
			feed(t, o.back)
			begun = true
		}
	}
	for i := range a.inlets {
		if in := &a.inlets[i]; in.hasBack {
			feed(b.links[in.link].to, in.back)
			begun = true
		}
	}
	for _, i := range s.ways {
		begun = b.addBack(net, a, i, feed) || begun
	}
	if !begun {
		return nil
	}
	return net
}

// addBack adds the way back along one way, or the one that begins behind a
// transformer, and reports whether one begins.
func (b *building) addBack(net *network, a *alternative, i int32, feed func(int32, complex128)) bool {
	w := &b.ways[i]
	from, to := b.terminals[w.from].system, b.terminals[w.to].system
	if !w.isTransformer() {
		if times := returnOf(from).times(); times != 0 {
			net.branches = append(net.branches, branch{b.bus[w.from], b.bus[w.to], power(b.volts(w.to, w.from), w.line*times)})
		}
		return false
	}
	near, far := w.from, w.to
	if a.tree.up[b.terminals[w.from].place] == i {
		near, far = w.to, w.from
	}
	nearStar := b.starAt(w, near)
	switch kind := returnOf(b.terminals[far].system); {
	case kind == zeroSequence && nearStar && (hasReturn(from) && hasReturn(to)):
		net.branches = append(net.branches, branch{b.bus[w.from], b.bus[w.to], power(b.volts(w.to, w.from), w.line)})
		return false
	case hasReturn(b.terminals[far].system):
		feed(far, b.beginReturn(b.terminals[far].system, b.above(a, w, near, far), b.referred(w, far)))
		return true
	case nearStar && b.terminals[far].system.Wiring == diagram.Delta:
		feed(near, b.referred(w, near))
		return true
	}
	return false
}

// starAt reports whether the winding of a transformer on one side is a star
// whose neutral is connected.
func (b *building) starAt(w *way, t int32) bool {
	made := w.part.System
	if t == w.from {
		made = w.part.Transformer.Primary
	}
	system := b.terminals[t].system
	return made.Wiring == diagram.Wye && system.Wiring == diagram.Wye && (made.Neutral && system.Neutral || w.part.Transformer.Auto)
}

// referred returns the impedance of a transformer at the voltage of one side.
func (b *building) referred(w *way, t int32) complex128 {
	if t == w.to {
		return w.line
	}
	return w.line / complex(w.ratio*w.ratio, 0)
}

// above returns what feeds a transformer by all other ways, Ω of a line at the
// voltage of its far side.
func (b *building) above(a *alternative, w *way, near, far int32) complex128 {
	z := a.line.without(b.bus[near], b.bus[far], power(b.volts(w.to, w.from), w.line))
	volts := b.terminals[far].system.Voltage
	return z * complex(volts*volts, 0)
}
