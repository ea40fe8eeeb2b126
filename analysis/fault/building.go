package fault

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// building is a document by number. Numbers follow the order of the ids.
type building struct {
	rules
	doc       *diagram.Document
	parts     []device
	feeders   []diagram.Feeder
	terminals []terminal
	ways      []way
	touching  [][]int32 // closed ways at each terminal
	links     []link
	bus       []int32 // of each terminal: terminals that are joined without impedance share one
	buses     int
	sections  []section
	ended     func() bool // whether nobody waits for the currents any more: then sections stay as they are
}

// terminal is one terminal of a part.
type terminal struct {
	at      diagram.End
	part    *device
	node    *analysis.Node
	system  diagram.System
	section int32
	place   int32   // in its section
	origin  *origin // of a source
}

// none stands for no number of a way, link or section.
const none = -1

// device is what of a part on the sheet its currents depend on.
type device struct {
	ID          diagram.ID
	Kind        diagram.Kind
	System      diagram.System
	Source      diagram.SourceData
	Transformer diagram.TransformerData
	Load        diagram.LoadData
}

// devicesOf lists the parts of a document.
func devicesOf(doc *diagram.Document) []device {
	parts, _, _ := doc.Count()
	out := make([]device, 0, parts)
	for p := range doc.Parts() {
		out = append(out, device{p.ID, p.Kind, p.System, p.Source, p.Transformer, p.Load})
	}
	return out
}

func newBuilding(doc *diagram.Document, topology *analysis.Topology, parts []device, r rules) *building {
	_, feeders, _ := doc.Count()
	b := &building{
		rules:     r,
		doc:       doc,
		parts:     parts,
		feeders:   slices.AppendSeq(make([]diagram.Feeder, 0, feeders), doc.Feeders()),
		terminals: make([]terminal, 0, len(parts)),
		ways:      make([]way, 0, feeders),
		ended:     func() bool { return false },
	}
	first := make(map[diagram.ID]int32, len(parts))
	for i := range b.parts {
		part := &b.parts[i]
		first[part.ID] = int32(len(b.terminals))
		for _, port := range part.Kind.Ports() {
			b.addTerminal(part, diagram.End{Part: part.ID, Port: port}, topology)
		}
	}
	for i := range b.parts {
		b.addWithin(first[b.parts[i].ID], &b.parts[i])
	}
	for i := range b.feeders {
		f := &b.feeders[i]
		b.addFeeder(b.find(first, f.From), b.find(first, f.To), f)
	}
	b.index()
	b.joinBuses()
	b.findSections()
	return b
}

func (b *building) addTerminal(part *device, at diagram.End, topology *analysis.Topology) {
	node := topology.Nodes[at]
	t := terminal{at: at, part: part, node: node, system: node.System, section: none}
	if part.Kind.IsSource() {
		o := b.originOf(part, t.system, nil)
		t.origin = &o
	}
	b.terminals = append(b.terminals, t)
}

func (b *building) find(first map[diagram.ID]int32, end diagram.End) int32 {
	t := first[end.Part]
	for b.terminals[t].at.Port != end.Port {
		t++
	}
	return t
}

// index lists the closed ways at each terminal.
func (b *building) index() {
	count := make([]int32, len(b.terminals))
	for i := range b.ways {
		if b.ways[i].closed {
			count[b.ways[i].from]++
			count[b.ways[i].to]++
		}
	}
	all := make([]int32, 2*len(b.ways))
	b.touching = make([][]int32, len(b.terminals))
	for t, n := range count {
		b.touching[t], all = all[:0:n], all[n:]
	}
	for i := range b.ways {
		if w := &b.ways[i]; w.closed {
			b.touching[w.from] = append(b.touching[w.from], int32(i))
			b.touching[w.to] = append(b.touching[w.to], int32(i))
		}
	}
}

// joinBuses numbers the buses.
func (b *building) joinBuses() {
	set := newSets(len(b.terminals))
	for i := range b.ways {
		if w := &b.ways[i]; w.closed && w.line == 0 {
			set.join(w.from, w.to)
		}
	}
	b.bus, b.buses = set.numbers()
}

// sets are disjoint sets of numbers.
type sets []int32

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = int32(i)
	}
	return s
}

func (s sets) of(i int32) int32 {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

// join joins the sets of two numbers under the smaller head.
func (s sets) join(a, b int32) {
	a, b = s.of(a), s.of(b)
	s[max(a, b)] = min(a, b)
}

// numbers numbers the sets by their heads, from 0 up.
func (s sets) numbers() (of []int32, count int) {
	of = make([]int32, len(s))
	for i := range s {
		if head := s.of(int32(i)); head == int32(i) {
			of[i] = int32(count)
			count++
		} else {
			of[i] = of[head]
		}
	}
	return of, count
}
