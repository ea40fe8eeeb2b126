package fault

import (
	"cmp"
	"fmt"
	"math/cmplx"
	"slices"
	"strings"
)

// section is what closed ways join: everything in it is fed together. Its
// buses are numbered from 0.
type section struct {
	terminals    []int32
	ways         []int32
	sources      []int32 // terminals
	in, out      []int32 // links that lead to it and from it
	buses        int
	alternatives []*alternative
	state        state
	inward       []complex128 // by bus, VA: what it feeds where nothing from outside does; made on demand
}

// state is how far a section has been worked out.
type state uint8

const (
	untouched state = iota
	working
	done
)

// mostAlternatives bounds how many ways of feeding a section are followed; those
// of the highest currents stay.
const mostAlternatives = 32

// findSections numbers the sections, and the buses within each anew.
func (b *building) findSections() {
	set := newSets(len(b.terminals))
	for i := range b.ways {
		if w := &b.ways[i]; w.closed {
			set.join(w.from, w.to)
		}
	}
	of, count := set.numbers()
	b.sections = make([]section, count)
	local := make([]int32, b.buses) // one more than the number of the bus in its section
	for i := range b.terminals {
		t, s := &b.terminals[i], &b.sections[of[i]]
		t.section, t.place = of[i], int32(len(s.terminals))
		s.terminals = append(s.terminals, int32(i))
		if t.origin != nil {
			s.sources = append(s.sources, int32(i))
		}
		if bus := b.bus[i]; local[bus] == 0 {
			s.buses++
			local[bus] = int32(s.buses)
		}
		b.bus[i] = local[b.bus[i]] - 1
	}
	b.assign()
}

// assign gives each section its ways and links.
func (b *building) assign() {
	for i := range b.ways {
		if w := &b.ways[i]; w.closed && w.line != 0 {
			s := b.sectionOf(w.from)
			s.ways = append(s.ways, int32(i))
		}
	}
	for i := range b.links {
		if l := &b.links[i]; b.terminals[l.from].section != b.terminals[l.to].section {
			b.sectionOf(l.from).out = append(b.sectionOf(l.from).out, int32(i))
			b.sectionOf(l.to).in = append(b.sectionOf(l.to).in, int32(i))
		}
	}
}

func (b *building) sectionOf(t int32) *section { return &b.sections[b.terminals[t].section] }

// inlet is what feeds a section from another, at one of its terminals.
type inlet struct {
	link    int32
	from    *alternative // of the other section
	line    complex128   // Ω, of a line at the terminal; 0 where none is known
	back    complex128   // Ω, way back
	hasBack bool
	why     string // of one whose current is not known: what is missing
	joins   bool   // nothing lies between: what is not known there is not known here
}

// strength orders inlets by what they feed.
func (in *inlet) strength() float64 {
	size := cmplx.Abs(in.line)
	if size == 0 {
		return -1
	}
	return size
}

// alternative is one way of feeding a section.
type alternative struct {
	section   int32
	inlets    []inlet
	sources   []string // names
	positions []string // of the switches that let them feed
	tree      tree
	line      *reduction
	back      *reduction
	why       []string // by bus: why its current is not known, or nothing
	notes     []*note  // by place
	reason    string   // the Why of what it feeds
	partial   bool     // loops are left out
}

// feedAll works out every section that something feeds: first those that are
// fed as the switches stand or through a transfer switch in either position,
// then, from there outward, those that would be with a switch closed.
func (b *building) feedAll() {
	for i := range b.sections {
		b.feed(int32(i))
	}
	var fed []int32
	for i := range b.sections {
		if b.isFed(int32(i)) {
			fed = append(fed, int32(i))
		}
	}
	for len(fed) > 0 {
		fed = b.feedNext(fed)
	}
}

func (b *building) isFed(section int32) bool { return len(b.sections[section].alternatives) > 0 }

// feedNext works out the unfed sections next to fed ones and returns those that
// it could feed. One that is fed stays so and is not returned again, so that the
// rounds end after as many as there are sections, at the most.
func (b *building) feedNext(fed []int32) []int32 {
	var next []int32
	seen := map[int32]bool{}
	for _, i := range fed {
		for _, l := range b.sections[i].out {
			to := b.terminals[b.links[l].to].section
			if !b.isFed(to) && !seen[to] {
				seen[to] = true
				next = append(next, to)
			}
		}
	}
	slices.Sort(next)
	combinations := make([][]*alternative, len(next))
	for i, number := range next {
		combinations[i] = b.combine(number, b.inlets(number, true))
	}
	for i, number := range next {
		b.workOut(number, combinations[i])
	}
	return slices.DeleteFunc(next, func(number int32) bool { return !b.isFed(number) }) // nothing of what feeds it may arrive
}

// feed works out a section after those that feed it.
func (b *building) feed(number int32) {
	s := &b.sections[number]
	if s.state != untouched || b.ended() {
		return
	}
	s.state = working
	for _, l := range s.in {
		if b.links[l].passage != closing {
			b.feed(b.terminals[b.links[l].from].section)
		}
	}
	b.workOut(number, b.combine(number, b.inlets(number, false)))
	s.state = done
}

func (b *building) workOut(number int32, alternatives []*alternative) {
	s := &b.sections[number]
	for _, a := range alternatives {
		if b.ended() {
			return
		}
		b.solve(a)
	}
	for _, a := range alternatives {
		a.reason = a.wording(len(alternatives) > 1)
	}
	s.alternatives = alternatives
}

// inlets lists what may feed a section, by what excludes each other: the
// inlets at one transfer switch, or the switches that could be closed.
func (b *building) inlets(number int32, closed bool) [][]inlet {
	groups := map[int32][]inlet{}
	var order []int32
	for _, l := range b.sections[number].in {
		k := &b.links[l]
		if k.passage == closing && !closed {
			continue
		}
		key := k.to
		switch k.passage {
		case closing:
			key = none
		case tap:
			key = none - 1 - l // two that lead to one board feed it together
		}
		for _, from := range b.sectionOf(k.from).alternatives {
			in, ok := b.enter(l, from)
			if !ok {
				continue
			}
			if groups[key] == nil {
				order = append(order, key)
			}
			groups[key] = append(groups[key], in)
		}
	}
	out := make([][]inlet, 0, len(order))
	for _, key := range order {
		group := groups[key]
		slices.SortStableFunc(group, func(a, b inlet) int { return cmp.Compare(a.strength(), b.strength()) })
		out = append(out, group[:min(len(group), mostAlternatives)])
	}
	return out
}

// combine lists the ways of feeding a section: each inlet in turn, with the
// strongest of each other group, so that their number is a sum and no product.
func (b *building) combine(number int32, groups [][]inlet) []*alternative {
	s := &b.sections[number]
	base := make([]inlet, 0, len(groups))
	for _, group := range groups {
		base = append(base, group[0])
	}
	if len(base) == 0 && len(s.sources) == 0 {
		return nil
	}
	out := []*alternative{b.newAlternative(number, base)}
	for i, group := range groups {
		for _, in := range group[1:] {
			inlets := slices.Clone(base)
			inlets[i] = in
			out = append(out, b.newAlternative(number, inlets))
		}
	}
	return out
}

func (b *building) newAlternative(number int32, inlets []inlet) *alternative {
	a := &alternative{section: number, inlets: inlets}
	for _, t := range b.sections[number].sources {
		a.sources = append(a.sources, b.nameOf(t))
	}
	for i := range inlets {
		in := &inlets[i]
		a.positions = append(a.positions, in.from.positions...)
		for _, name := range in.from.sources {
			if !slices.Contains(a.sources, name) {
				a.sources = append(a.sources, name)
			}
		}
		switch k := &b.links[in.link]; k.passage {
		case throw:
			a.positions = append(a.positions, b.nameOf(k.to)+" on "+k.position)
		case closing:
			a.positions = append(a.positions, "the switch of "+b.doc.NameOf(b.ways[k.way].feeder.ID)+" closed")
		}
	}
	return a
}

func (b *building) nameOf(t int32) string { return b.doc.NameOf(b.terminals[t].at.Part) }

// wording says from where the current comes.
func (a *alternative) wording(oneOfMany bool) string {
	sources := strings.Join(shorten(a.sources), " and ")
	positions := strings.Join(a.positions, ", ")
	switch {
	case positions == "":
		return "from " + sources
	case oneOfMany:
		return "highest with " + positions + ": " + sources
	}
	return "with " + positions + ": " + sources
}

// shorten keeps a list of names readable.
func shorten(names []string) []string {
	const most = 3
	if len(names) <= most {
		return names
	}
	return append(slices.Clone(names[:most-1]), fmt.Sprintf("%d more", len(names)-most+1))
}
