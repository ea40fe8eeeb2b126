package transient

// block is how many steps an island takes in one go. What it works on stays in
// the nearest cache for so long.
const block = 8

// island is clusters that lines of a block or less join. All other lines
// hide it from the rest for a whole block.
type island []*cluster

// run takes the steps after done up to last. It returns the cluster and the
// step for which no solution was found, or nil.
func (i island) run(done, last int) (*cluster, int) {
	for k := done + 1; k <= last; k++ {
		for _, c := range i {
			if !c.step(k) {
				return c, k
			}
			for _, t := range c.traces {
				t.values[k] = c.v[t.from] - c.v[t.to]
			}
		}
	}
	for _, c := range i {
		if v := c.v[0]; v-v != 0 { // no number; it has spread to all nodes by now
			return c, last
		}
	}
	return nil, 0
}

// findIslands sorts the clusters into islands, in the order of their first
// clusters.
func (b *builder) findIslands() {
	parent := make(map[*cluster]*cluster, len(b.clusters))
	root := func(c *cluster) *cluster {
		for parent[c] != nil {
			c = parent[c]
		}
		return c
	}
	for _, l := range b.network.Lines {
		near, far := b.of[l.A[0]], b.of[l.B[0]]
		if wholeSteps(l.Delay, b.options.Step) > block {
			continue
		}
		if near, far = root(near), root(far); near != far {
			parent[far] = near
		}
	}
	number := map[*cluster]int{}
	for _, c := range b.clusters {
		at, known := number[root(c)]
		if !known {
			at = len(b.islands)
			number[root(c)] = at
			b.islands = append(b.islands, nil)
		}
		b.islands[at] = append(b.islands[at], c)
	}
}
