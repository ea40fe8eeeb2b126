package fault

// network is buses joined by branches, each bus with what feeds or loads it
// from outside. Impedances are divided by the squares of the voltages of their
// buses, which refers them over every transformer: one over them is a power, and
// the power of all that a bus is joined to is that of a fault there.
type network struct {
	feeding  []complex128 // by bus, from the reference, VA
	held     []bool       // by bus: joined to the reference without impedance
	branches []branch
}

// branch joins two buses.
type branch struct {
	a, b  int32
	power complex128 // VA
}

// widest bounds how many others a bus may be joined to when it is taken away: a
// network of many loops across each other is not a building's.
const widest = 48

// reduction is a network taken apart bus by bus.
type reduction struct {
	order  []int32   // of taking away
	beyond [][]share // by bus: the buses that stood round it when it was taken away
	loose  []bool    // by bus: nothing feeds what it is joined to
	z      []complex128
}

// share is another bus and the part of what flows into the one taken away that
// comes from there; z is their transfer impedance.
type share struct {
	bus   int32
	part  complex128
	z     complex128
	power complex128
}

// reduce finds the impedances of all buses by taking them away in the order
// given, a star turned into a mesh each time, and putting them back. It reports
// false where too many branches would arise. Its cost grows with the number of
// buses where the order goes from the ends of a tree to its root.
func (n *network) reduce(order []int32) (*reduction, bool) {
	r := &reduction{
		order: order, beyond: n.neighbours(), loose: make([]bool, len(n.feeding)), z: make([]complex128, len(n.feeding)),
	}
	w := &taker{network: n, reduction: r, gone: make([]bool, len(n.feeding)), seen: make([]int32, len(n.feeding))}
	for _, bus := range order {
		if !n.held[bus] && !w.take(bus) {
			return nil, false
		}
	}
	for i := len(order) - 1; i >= 0; i-- {
		if !n.held[order[i]] {
			r.put(order[i], n.feeding[order[i]])
		}
	}
	return r, true
}

// neighbours returns what each bus is joined to; what it is joined to without
// impedance beyond feeds it.
func (n *network) neighbours() [][]share {
	count := make([]int32, len(n.feeding))
	for _, b := range n.branches {
		count[b.a]++
		count[b.b]++
	}
	all := make([]share, 2*len(n.branches))
	out := make([][]share, len(n.feeding))
	for bus, k := range count {
		out[bus], all = all[:0:k], all[k:]
	}
	for _, b := range n.branches {
		switch {
		case b.a == b.b, n.held[b.a] && n.held[b.b]:
		case n.held[b.a]:
			n.feeding[b.b] += b.power
		case n.held[b.b]:
			n.feeding[b.a] += b.power
		default:
			out[b.a] = append(out[b.a], share{bus: b.b, power: b.power})
			out[b.b] = append(out[b.b], share{bus: b.a, power: b.power})
		}
	}
	return out
}

// taker takes buses away.
type taker struct {
	*network
	*reduction
	gone []bool
	seen []int32 // by bus, one more than its place among those round the bus at hand
}

// take takes a bus away and joins what stood round it.
func (w *taker) take(bus int32) bool {
	round := w.gather(bus)
	if len(round) > widest {
		return false
	}
	total := w.feeding[bus]
	for _, s := range round {
		total += s.power
	}
	for i := range round {
		round[i].part = round[i].power / total
		w.feeding[round[i].bus] += round[i].part * w.feeding[bus]
		for j := range i {
			w.join(round[i].bus, round[j].bus, round[i].part*round[j].power)
		}
	}
	w.gone[bus] = true
	w.beyond[bus] = round
	return true
}

// gather returns what is still round a bus, each other bus once.
func (w *taker) gather(bus int32) []share {
	round := w.beyond[bus][:0]
	for _, s := range w.beyond[bus] {
		switch at := w.seen[s.bus]; {
		case w.gone[s.bus]:
		case at > 0:
			round[at-1].power += s.power
		default:
			round = append(round, s)
			w.seen[s.bus] = int32(len(round))
		}
	}
	for _, s := range round {
		w.seen[s.bus] = 0
	}
	return round
}

func (w *taker) join(a, b int32, power complex128) {
	w.beyond[a] = append(w.beyond[a], share{bus: b, power: power})
	w.beyond[b] = append(w.beyond[b], share{bus: a, power: power})
}

// put finds the impedance of a bus from those that stood round it.
func (r *reduction) put(bus int32, feeding complex128) {
	round := r.beyond[bus]
	total := feeding
	for i := range round {
		total += round[i].power
		r.loose[bus] = r.loose[bus] || r.loose[round[i].bus]
		for j := range round {
			round[i].z += round[j].part * r.between(round[i].bus, round[j].bus)
		}
	}
	if total == 0 || r.loose[bus] {
		r.loose[bus] = true
		return
	}
	r.z[bus] = 1 / total
	for i := range round {
		r.z[bus] += round[i].part * round[i].z
	}
}

// between returns the impedance of a bus, or the transfer impedance of two that
// stood side by side when one of them was taken away, which holds for all that
// are joined by a branch.
func (r *reduction) between(a, b int32) complex128 {
	if a == b {
		return r.z[a]
	}
	for _, s := range r.beyond[a] {
		if s.bus == b {
			return s.z
		}
	}
	for _, s := range r.beyond[b] {
		if s.bus == a {
			return s.z
		}
	}
	return 0
}

// without returns the impedance that a bus would have without one branch from
// it to another: that of what feeds it by all other ways.
func (r *reduction) without(bus, other int32, power complex128) complex128 {
	own, mutual, far := r.z[bus], r.between(bus, other), r.z[other]
	taken := 1 - power*(own-2*mutual+far)
	if real(taken)*real(taken)+imag(taken)*imag(taken) < 1e-18 {
		return own
	}
	return own + (own-mutual)*(own-mutual)*power/taken
}
