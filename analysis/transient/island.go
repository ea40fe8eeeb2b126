package transient

import "cmp"

// block is how many steps an island takes in one go. What it works on stays in
// the nearest cache for so long.
const block = 8

// island is clusters that lines of a block or less join. All other lines
// hide it from the rest for a whole block.
type island struct {
	clusters []*cluster
	stride   int // steps for which its own lines hide them from each other, a block at most
}

// run takes the steps after done up to last. It returns the cluster and the
// step for which no solution was found, or nil.
func (i *island) run(done, last int) (*cluster, int) {
	for ; done < last; done += i.stride {
		for _, c := range i.clusters {
			if k := c.run(done, min(done+i.stride, last)); k > 0 {
				return c, k
			}
		}
	}
	for _, c := range i.clusters {
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
	stride := map[*cluster]int{}
	for _, l := range b.network.Lines {
		near, far, steps := root(b.of[l.A[0]]), root(b.of[l.B[0]]), wholeSteps(l.Delay, b.options.Step)
		if steps > block {
			continue
		}
		if near != far {
			parent[far] = near
		}
		// of the four waves that are looked at for one, the youngest is a step younger
		stride[near] = max(1, min(cmp.Or(stride[near], block), cmp.Or(stride[far], block), steps-1))
	}
	number := map[*cluster]int{}
	for _, c := range b.clusters {
		at, known := number[root(c)]
		if !known {
			at = len(b.islands)
			number[root(c)] = at
			b.islands = append(b.islands, island{stride: cmp.Or(stride[root(c)], block)})
		}
		b.islands[at].clusters = append(b.islands[at].clusters, c)
	}
}
