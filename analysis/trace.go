package analysis

import (
	"context"

	"clampline/diagram"
)

// Trace finds what each terminal of the building is, from the supplies and
// generators down. Where two ways lead to a part, the one of fewer steps
// counts, then the order of the ids. The plans don't matter. The cost grows
// with the number of records, and with its logarithm.
func Trace(doc *diagram.Document) *Topology {
	out, _ := TraceContext(context.Background(), doc) // which never ends
	return out
}

// TraceContext is Trace that stops where the context ends, with its error.
func TraceContext(ctx context.Context, doc *diagram.Document) (*Topology, error) {
	t := newTracer(newGraph(doc))
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	t.trace()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	topology := &Topology{Nodes: make(map[diagram.End]*Node, len(t.nodes)), Findings: t.findings(t.dead)}
	for i := range t.nodes {
		topology.Nodes[t.nodes[i].At] = &t.nodes[i]
	}
	SortFindings(topology.Findings)
	return topology, ctx.Err()
}

// trace leads the circuits of all sources as far as they go, and on into what
// none of them feeds.
func (t *tracer) trace() {
	var live []int
	for i := range t.terminals {
		if t.partOf(i).Kind.IsSource() {
			live = append(live, t.plant(i, t.partOf(i).System))
		}
	}
	t.spread(live)
	t.dead = t.islands()
	t.wouldFeed(t.dead)
}

// tracer walks the graph and writes down what it finds.
type tracer struct {
	*graph
	nodes []Node // by terminal
	via   []int  // the way by which each terminal is reached, or none
	root  []int  // the first terminal of its closed circuit toward the supply, or none where nothing has reached it yet
	dead  []island
}

func newTracer(g *graph) *tracer {
	n := len(g.terminals)
	t := &tracer{graph: g, nodes: make([]Node, n), via: make([]int, n), root: make([]int, n)}
	for i := range n {
		t.nodes[i].At = g.end(i)
		t.via[i], t.root[i] = none, none
	}
	return t
}

func (t *tracer) reached(terminal int) bool { return t.root[terminal] != none }

// plant begins a circuit at a terminal that has nothing above it: a source,
// or the top of what no source feeds.
func (t *tracer) plant(terminal int, system diagram.System) int {
	part, node := t.partOf(terminal), &t.nodes[terminal]
	t.root[terminal] = terminal
	node.Zone = node.At
	node.System = systemAt(part, system)
	if part.Kind.IsSource() {
		node.Fed, node.Source, node.System = true, part.ID, system
	}
	return terminal
}

// claim leads the circuit on from one terminal to the next.
func (t *tracer) claim(next, from, w int) {
	node, up := &t.nodes[next], &t.nodes[from]
	t.via[next], t.root[next] = w, t.root[from]
	if t.ways[w].open {
		t.root[next] = next
	}
	node.Up, node.Depth = up, up.Depth+1
	node.Source, node.Zone = up.Source, up.Zone
	node.Fed = up.Fed && !t.ways[w].open
	if i := t.ways[w].feeder; i != none {
		node.Feeder, node.Length = t.feeders[i].ID, t.feeders[i].Length
	}
	node.Total = up.Total + node.Length

	part, arrives := t.partOf(next), up.System
	if t.kind(w) == diagram.Transformer {
		arrives = across(part, next == t.ways[w].to, arrives)
		if !part.Transformer.Auto {
			node.Zone = node.At
		}
	}
	node.System = systemAt(part, arrives)
}

// spread leads the circuits on from the terminals of the queue through every
// closed way, by steps. A transformer is fed from its secondary only where
// nothing else reaches its primary. It returns all that it reached, the queue
// first.
func (t *tracer) spread(queue []int) []int {
	done := 0
	for done < len(queue) {
		var behind []int
		for ; done < len(queue); done++ {
			queue, behind = t.step(queue[done], queue, behind)
		}
		for _, w := range behind {
			if primary := t.ways[w].from; !t.reached(primary) {
				t.claim(primary, t.ways[w].to, w)
				queue = append(queue, primary)
			}
		}
	}
	return queue
}

// step leads on from one terminal; behind collects the transformers met at
// their secondary.
func (t *tracer) step(near int, queue, behind []int) (longer, met []int) {
	for _, w := range t.touching[near] {
		far := t.far(w, near)
		switch {
		case t.ways[w].open || t.reached(far) || t.thrownOver(near, w):
		case t.kind(w) == diagram.Transformer && near == t.ways[w].to:
			behind = append(behind, w)
		default:
			t.claim(far, near, w)
			queue = append(queue, far)
		}
	}
	return queue, behind
}

// thrownOver reports whether the way is the selected throw of a transfer
// switch that is taken to be set to its other side: what that side would feed
// does not go back through this one.
func (t *tracer) thrownOver(near, w int) bool {
	if t.kind(w) != diagram.TransferSwitch {
		return false
	}
	via := t.via[near]
	return via != none && t.kind(via) == diagram.TransferSwitch && t.ways[via].open
}
