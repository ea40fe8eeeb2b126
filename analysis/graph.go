package analysis

import (
	"slices"

	"clampline/diagram"
)

// graph is the building as terminals and the ways between them, by number.
// Numbers follow the order of the ids, so that equal documents are traced
// alike whatever was done to them before.
type graph struct {
	doc       *diagram.Document
	parts     []diagram.Part
	feeders   []diagram.Feeder
	first     []int // the first terminal of each part
	terminals []terminal
	ways      []way
	touching  [][]int // the ways at each terminal
}

// terminal is one terminal of a part.
type terminal struct {
	part int
	port diagram.Port
}

// way joins two terminals: a feeder, the windings of a transformer, or one
// throw of a transfer switch.
type way struct {
	from, to int  // as drawn, or the way that power usually goes within a part
	feeder   int  // or none within a part
	open     bool // a switch at its head is open, or the throw is not selected
}

// none stands for no number of a part, terminal, way or feeder.
const none = -1

func newGraph(doc *diagram.Document) *graph {
	parts, feeders, _ := doc.Count()
	g := &graph{
		doc:       doc,
		parts:     slices.AppendSeq(make([]diagram.Part, 0, parts), doc.Parts()),
		feeders:   slices.AppendSeq(make([]diagram.Feeder, 0, feeders), doc.Feeders()),
		first:     make([]int, 0, parts),
		terminals: make([]terminal, 0, parts),
		ways:      make([]way, 0, feeders),
	}
	number := make(map[diagram.ID]int, parts)
	for i, part := range g.parts {
		number[part.ID] = i
		g.first = append(g.first, len(g.terminals))
		for _, port := range part.Kind.Ports() {
			g.terminals = append(g.terminals, terminal{i, port})
		}
	}
	for i := range g.parts {
		g.joinWithin(i)
	}
	for i, f := range g.feeders {
		from, to := g.at(number, f.From), g.at(number, f.To)
		g.ways = append(g.ways, way{from: from, to: to, feeder: i, open: f.Switch.Open})
	}
	g.index()
	return g
}

// joinWithin adds the ways between the terminals of one part.
func (g *graph) joinWithin(i int) {
	first := g.first[i]
	switch part := &g.parts[i]; part.Kind {
	case diagram.Transformer:
		g.ways = append(g.ways, way{from: first, to: first + 1, feeder: none})
	case diagram.TransferSwitch:
		normal := part.Transfer.Selected() == diagram.Normal
		g.ways = append(g.ways,
			way{from: first, to: first + 2, feeder: none, open: !normal},
			way{from: first + 1, to: first + 2, feeder: none, open: normal})
	}
}

func (g *graph) at(number map[diagram.ID]int, end diagram.End) int {
	first := g.first[number[end.Part]]
	for t := first; ; t++ {
		if g.terminals[t].port == end.Port {
			return t
		}
	}
}

func (g *graph) index() {
	count := make([]int, len(g.terminals))
	for _, w := range g.ways {
		count[w.from]++
		count[w.to]++
	}
	all := make([]int, 2*len(g.ways))
	g.touching = make([][]int, len(g.terminals))
	for t, n := range count {
		g.touching[t], all = all[:0:n], all[n:]
	}
	for i, w := range g.ways {
		g.touching[w.from] = append(g.touching[w.from], i)
		g.touching[w.to] = append(g.touching[w.to], i)
	}
}

// far returns the terminal at the other end of a way.
func (g *graph) far(w, near int) int {
	if g.ways[w].from == near {
		return g.ways[w].to
	}
	return g.ways[w].from
}

// kind returns the kind of the part that a way lies within, or the empty
// value for a feeder.
func (g *graph) kind(w int) diagram.Kind {
	if g.ways[w].feeder != none {
		return ""
	}
	return g.partOf(g.ways[w].from).Kind
}

func (g *graph) partOf(t int) *diagram.Part { return &g.parts[g.terminals[t].part] }

func (g *graph) end(t int) diagram.End {
	return diagram.End{Part: g.partOf(t).ID, Port: g.terminals[t].port}
}

// recordOf returns the id and the name of what a way is: a feeder, or the
// part that it lies within.
func (g *graph) recordOf(w int) (diagram.ID, string) {
	if i := g.ways[w].feeder; i != none {
		id := g.feeders[i].ID
		return id, g.doc.NameOf(id)
	}
	part := g.partOf(g.ways[w].from)
	return part.ID, nameOf(part)
}
