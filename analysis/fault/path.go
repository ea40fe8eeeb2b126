package fault

import "slices"

// hop is one stretch of the way from a source to a terminal.
type hop struct {
	source int32 // terminal of the source at which the way begins, or none
	way    *way  // feeder, transformer or joint; nil over a throw
	link   *link // over which it goes from one section to another, or nil
	near   int32 // terminals
	far    int32
	under  *alternative // of the section in which far lies
}

// path lists the way to a terminal in one way of feeding it, from the source
// on. It ends: a tree leads up to a root, and what feeds an alternative over a
// link was worked out before it.
func (b *building) path(a *alternative, t int32) []hop {
	var out []hop
	for {
		if i := a.tree.up[b.terminals[t].place]; i != none {
			w := &b.ways[i]
			out = append(out, hop{source: none, way: w, near: w.other(t), far: t, under: a})
			t = w.other(t)
			continue
		}
		in := a.inletAt(b, t)
		if in == nil {
			out = append(out, hop{source: t, near: t, far: t, under: a})
			slices.Reverse(out)
			return out
		}
		l := &b.links[in.link]
		h := hop{source: none, link: l, near: l.from, far: t, under: a}
		if l.way != none {
			h.way = &b.ways[l.way]
		}
		out = append(out, h)
		a, t = in.from, l.from
	}
}

// inletAt returns what feeds the section at a terminal from another one, or
// nil.
func (a *alternative) inletAt(b *building, t int32) *inlet {
	for i := range a.inlets {
		if in := &a.inlets[i]; b.links[in.link].to == t {
			return in
		}
	}
	return nil
}
