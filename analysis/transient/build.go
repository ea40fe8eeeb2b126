package transient

import (
	"context"
	"fmt"

	"clampline/analysis/circuit"
)

// builder makes the clusters of a solver.
type builder struct {
	*Solver
	of    []*cluster // by node
	local []int      // by node: its number in the cluster
}

func newBuilder(s *Solver) *builder {
	n := len(s.network.Names)
	return &builder{Solver: s, of: make([]*cluster, n), local: make([]int, n)}
}

func (b *builder) build(ctx context.Context) error {
	nonlinear := b.nonlinear()
	for _, part := range b.network.Clusters() {
		if err := ctx.Err(); err != nil {
			return err
		}
		b.addCluster(part, nonlinear)
	}
	for _, add := range []func(){b.addLinear, b.addLines, b.addNonlinear, b.findIslands} {
		if err := ctx.Err(); err != nil {
			return err
		}
		add()
	}
	for _, c := range b.clusters {
		if err := ctx.Err(); err != nil {
			return err
		}
		if why := c.whyNot(); why != "" {
			return fmt.Errorf("%s: %s", c.name, why)
		}
		c.restart = true
	}
	return nil
}

// nonlinear tells which nodes varistors, gaps and diodes touch.
func (b *builder) nonlinear() []bool {
	out := make([]bool, len(b.network.Names))
	for _, v := range b.network.Varistors {
		out[v.A], out[v.B] = true, true
	}
	for _, g := range b.network.Gaps {
		out[g.A], out[g.B] = true, true
	}
	for _, d := range b.network.Diodes {
		out[d.A], out[d.B] = true, true
	}
	return out
}

func (b *builder) addCluster(part circuit.Cluster, nonlinear []bool) {
	c := &cluster{h: b.options.Step, n: len(part.Nodes), name: b.nameOf(part)}
	for _, late := range []bool{false, true} {
		for _, node := range part.Nodes {
			if nonlinear[node] == late {
				b.of[node], b.local[node] = c, c.lin+c.non
				if late {
					c.non++
				} else {
					c.lin++
				}
			}
		}
	}
	c.newRows()
	c.g = make([]float64, c.n*c.n)
	b.clusters = append(b.clusters, c)
	for _, i := range part.Buses {
		c.buses = append(c.buses, b.newBus(i, c))
	}
}

func (b *builder) nameOf(part circuit.Cluster) string {
	if len(part.Buses) > 0 {
		return b.network.Buses[part.Buses[0]].Name
	}
	return b.network.Names[part.Nodes[0]]
}

// at returns the local number of a node in a cluster; Earth's is the last.
func (b *builder) at(c *cluster, node circuit.Node) int {
	if node == circuit.Earth {
		return c.n
	}
	return b.local[node]
}

// home returns the cluster that holds the first of the nodes which is not
// Earth, or nil where all are.
func (b *builder) home(nodes ...circuit.Node) *cluster {
	for _, node := range nodes {
		if node != circuit.Earth {
			return b.of[node]
		}
	}
	return nil
}

func (b *builder) addLinear() {
	for _, r := range b.network.Resistors {
		if c := b.home(r.A, r.B); c != nil {
			c.addResistor(b.at(c, r.A), b.at(c, r.B), r.Ohms)
		}
	}
	for _, x := range b.network.Capacitors {
		if c := b.home(x.A, x.B); c != nil {
			c.addCapacitor(b.at(c, x.A), b.at(c, x.B), x)
		}
	}
	for _, x := range b.network.Inductors {
		b.addInductor(x)
	}
	for _, w := range b.network.Windings {
		if c := b.home(w.P.A, w.P.B, w.S.A, w.S.B); c != nil {
			c.addWinding([4]int{b.at(c, w.P.A), b.at(c, w.P.B), b.at(c, w.S.A), b.at(c, w.S.B)}, w)
		}
	}
	for _, x := range b.network.Sources {
		if c := b.home(x.A, x.B); c != nil {
			c.addSource(b.at(c, x.A), b.at(c, x.B), x)
		}
	}
}

func (b *builder) addInductor(x circuit.Inductor) {
	var nodes []circuit.Node
	for _, branch := range x.Branches {
		nodes = append(nodes, branch.A, branch.B)
	}
	c := b.home(nodes...)
	if c == nil {
		return
	}
	ends := make([][2]int, len(x.Branches))
	for i, branch := range x.Branches {
		ends[i] = [2]int{b.at(c, branch.A), b.at(c, branch.B)}
	}
	c.addInductor(ends, x)
}

func (b *builder) addLines() {
	for _, x := range b.network.Lines {
		l := newLine(x, b.options)
		ends := [2][]circuit.Node{x.A, x.B}
		for side, nodes := range ends {
			c, end := b.of[nodes[0]], l.end(side)
			for k, node := range nodes {
				end.node[k] = b.at(c, node)
			}
			c.addEnd(end)
		}
		b.lines = append(b.lines, l)
	}
}

func (b *builder) addNonlinear() {
	for i, x := range b.network.Varistors {
		if c := b.home(x.A, x.B); c != nil {
			c.limiters = append(c.limiters, newLimiter(b.at(c, x.A), b.at(c, x.B), i, x.Curve))
		}
	}
	for i, x := range b.network.Gaps {
		if c := b.home(x.A, x.B); c != nil {
			c.limiters = append(c.limiters, newGap(b.at(c, x.A), b.at(c, x.B), i, x))
			c.gaps = true
		}
	}
	for _, x := range b.network.Diodes {
		if c := b.home(x.A, x.B); c != nil {
			c.limiters = append(c.limiters, newDiode(b.at(c, x.A), b.at(c, x.B), x))
		}
	}
}

// probes makes room for the waves to keep.
func (b *builder) probes(record []Probe) error {
	for _, p := range record {
		if p.Bus < 0 || p.Bus >= len(b.network.Buses) {
			return fmt.Errorf("there is no bus %d to record", p.Bus)
		}
		conductors := b.network.Buses[p.Bus].Conductors
		if p.Pair.From < 0 || p.Pair.From >= len(conductors) || p.Pair.To < circuit.ToEarth || p.Pair.To >= len(conductors) {
			return fmt.Errorf("bus %s: there is no pair of conductors %v to record", b.network.Buses[p.Bus].Name, p.Pair)
		}
		c := b.of[conductors[0].Node]
		t := &trace{from: b.local[conductors[p.Pair.From].Node], to: c.n}
		if p.Pair.To != circuit.ToEarth {
			t.to = b.local[conductors[p.Pair.To].Node]
		}
		b.traces, c.traces = append(b.traces, t), append(c.traces, t)
	}
	return nil
}
