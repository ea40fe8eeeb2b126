package fault

import "fmt"

// findNotes notes what was taken on the way to each terminal of a section.
func (b *building) findNotes(a *alternative) {
	s := &b.sections[a.section]
	a.notes = make([]*note, len(s.terminals))
	common := b.commonFacts(a)
	for _, t := range a.tree.order {
		place := b.terminals[t].place
		i := a.tree.up[place]
		if i == none {
			a.notes[place] = b.rootNote(a, t, common)
			continue
		}
		w := &b.ways[i]
		near := w.other(t)
		n := a.notes[b.terminals[near].place]
		if w.facts != nil {
			n = n.withAll(w.facts)
		}
		earthed, before := b.terminals[t].system.Earthing, b.terminals[near].system.Earthing
		if w.isTransformer() || earthed != before {
			n = n.inZone(earthReason(b.terminals[t].part, b.terminals[t].system))
		}
		a.notes[place] = n
	}
}

// rootNote returns what was taken up to a terminal at which something feeds the
// section.
func (b *building) rootNote(a *alternative, t int32, common []fact) *note {
	var n *note
	local := true
	for i := range a.inlets {
		in := &a.inlets[i]
		l := &b.links[in.link]
		if l.to != t {
			continue
		}
		n = in.from.notes[b.terminals[l.from].place]
		if l.way != none {
			n = n.withAll(b.ways[l.way].facts)
		}
		local = !in.joins || b.terminals[t].system.Earthing != b.terminals[l.from].system.Earthing
		break
	}
	n = n.withAll(common)
	if local {
		n = n.inZone(earthReason(b.terminals[t].part, b.terminals[t].system))
	}
	return n
}

// commonFacts lists what concerns a whole section: what was taken for the
// sources in it, motors that are not counted, and loops that are not.
func (b *building) commonFacts(a *alternative) []fact {
	s := &b.sections[a.section]
	var out []fact
	for _, t := range s.sources {
		out = append(out, b.terminals[t].origin.facts...)
	}
	silent := 0
	first := int32(none)
	for _, t := range s.terminals {
		if part := b.terminals[t].part; isMotor(part) && part.Load.Power < 1 {
			if silent++; silent == 1 {
				first = t
			}
		}
	}
	if silent > 0 {
		text := "does not feed the fault: its power is not known"
		switch {
		case silent == 2:
			text = "and 1 more motor do not feed the fault: their power is not known"
		case silent > 2:
			text = fmt.Sprintf("and %d more motors do not feed the fault: their power is not known", silent-1)
		}
		out = append(out, fact{b.terminals[first].at.Part, text, noSource, true})
	}
	if a.partial {
		out = append(out, fact{b.terminals[s.terminals[0]].at.Part, "is part of a network with so many loops that they are left out", noSource, true})
	}
	return out
}
