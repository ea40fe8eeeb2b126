package circuit

// Cluster is a part of the network that its lines part from the rest: within
// one step shorter than every delay it can be solved by itself.
type Cluster struct {
	Nodes []Node // rising
	Buses []int  // by number
}

// Clusters returns the parts of the network, in the order of their first
// nodes. All conductors of a bus, and all of a line at one end, are in one.
func (n *Network) Clusters() []Cluster {
	s := newSets(len(n.Names))
	n.eachElement(func(nodes ...Node) { s.join(nodes) })
	var out []Cluster
	number := make([]int, len(n.Names))
	for node := 1; node < len(n.Names); node++ {
		root := s.find(node)
		if number[root] == 0 {
			out = append(out, Cluster{})
			number[root] = len(out)
		}
		c := &out[number[root]-1]
		c.Nodes = append(c.Nodes, Node(node))
	}
	for i, bus := range n.Buses {
		if len(bus.Conductors) > 0 {
			c := &out[number[s.find(int(bus.Conductors[0].Node))]-1]
			c.Buses = append(c.Buses, i)
		}
	}
	return out
}

// eachElement calls f with the nodes of everything that joins nodes within a
// step.
func (n *Network) eachElement(f func(nodes ...Node)) {
	for _, b := range n.Buses {
		nodes := make([]Node, len(b.Conductors))
		for i, c := range b.Conductors {
			nodes[i] = c.Node
		}
		f(nodes...)
	}
	for _, l := range n.Lines {
		f(l.A...)
		f(l.B...)
	}
	for _, r := range n.Resistors {
		f(r.A, r.B)
	}
	for _, c := range n.Capacitors {
		f(c.A, c.B)
	}
	for _, c := range n.Inductors {
		nodes := make([]Node, 0, 2*len(c.Branches))
		for _, b := range c.Branches {
			nodes = append(nodes, b.A, b.B)
		}
		f(nodes...)
	}
	for _, w := range n.Windings {
		f(w.P.A, w.P.B, w.S.A, w.S.B)
	}
	for _, s := range n.Sources {
		f(s.A, s.B)
	}
	for _, v := range n.Varistors {
		f(v.A, v.B)
	}
	for _, g := range n.Gaps {
		f(g.A, g.B)
	}
	for _, d := range n.Diodes {
		f(d.A, d.B)
	}
}

// sets tells which nodes belong together. Earth belongs to none.
type sets struct{ parent []int }

func newSets(n int) *sets {
	s := &sets{make([]int, n)}
	for i := range s.parent {
		s.parent[i] = i
	}
	return s
}

func (s *sets) find(i int) int {
	for s.parent[i] != i {
		s.parent[i] = s.parent[s.parent[i]]
		i = s.parent[i]
	}
	return i
}

func (s *sets) join(nodes []Node) {
	first := -1
	for _, node := range nodes {
		if node == Earth {
			continue
		}
		root := s.find(int(node))
		if first >= 0 && root != first {
			lower, upper := min(root, first), max(root, first)
			s.parent[upper] = lower
			root = lower
		}
		first = root
	}
}
