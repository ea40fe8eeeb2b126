package analysis

import (
	"cmp"
	"slices"

	"clampline/diagram"
)

// island is a set of terminals joined by closed ways that no source feeds.
type island struct {
	terminals []int
	gaps      []int // the open ways between it and what would feed it; empty where there are none
}

// islands finds the sets of terminals that spread has not reached.
func (t *tracer) islands() []island {
	var out []island
	seen := make([]bool, len(t.terminals))
	for start := range t.terminals {
		if t.reached(start) || seen[start] {
			continue
		}
		members := []int{start}
		seen[start] = true
		for done := 0; done < len(members); done++ {
			for _, w := range t.touching[members[done]] {
				if far := t.far(w, members[done]); !t.ways[w].open && !seen[far] {
					seen[far] = true
					members = append(members, far)
				}
			}
		}
		slices.Sort(members)
		out = append(out, island{terminals: members})
	}
	return out
}

// wouldFeed leads the circuits on into the islands as if the open switches
// before them were closed: first those next to what is fed, then those beyond.
// An island without a switch before it begins a circuit of its own. Each round
// reaches all of its islands, so there are no more rounds than islands.
func (t *tracer) wouldFeed(islands []island) {
	of := make([]int, len(t.terminals)) // island by terminal
	var fresh []int
	for i := range of {
		of[i] = none
		if t.reached(i) {
			fresh = append(fresh, i)
		}
	}
	for i := range islands {
		for _, terminal := range islands[i].terminals {
			of[terminal] = i
		}
	}
	for len(fresh) > 0 {
		next := t.findGaps(fresh, islands, of)
		fresh = nil
		for _, i := range next {
			system := t.enter(islands[i].gaps)
			t.plantRest(islands[i], system)
			fresh = append(fresh, islands[i].terminals...)
		}
	}
	for _, dead := range islands {
		t.plantRest(dead, diagram.System{})
	}
}

// findGaps notes the open ways from the terminals into islands that are not
// reached yet, and returns the numbers of these islands in order.
func (t *tracer) findGaps(fresh []int, islands []island, of []int) []int {
	var found []int
	for _, near := range fresh {
		for _, w := range t.touching[near] {
			far := t.far(w, near)
			if !t.ways[w].open || t.reached(far) || t.kind(w) != "" && far == t.ways[w].from {
				continue // a throw is not fed from the load side
			}
			dead := &islands[of[far]]
			if len(dead.gaps) == 0 {
				found = append(found, of[far])
			}
			dead.gaps = append(dead.gaps, w)
		}
	}
	slices.Sort(found)
	return found
}

// enter leads the circuit through the gaps of an island where they all come
// from one source and transformer zone; otherwise nothing can be told but the
// system, where they agree on it, which it returns.
func (t *tracer) enter(gaps []int) diagram.System {
	slices.SortFunc(gaps, func(a, b int) int {
		return cmp.Or(cmp.Compare(t.nodes[t.feedSide(a)].Depth, t.nodes[t.feedSide(b)].Depth), cmp.Compare(a, b))
	})
	first := t.nodes[t.feedSide(gaps[0])]
	same, system := true, first.System
	for _, w := range gaps[1:] {
		other := t.nodes[t.feedSide(w)]
		same = same && other.Source == first.Source && other.Zone == first.Zone
		if other.System != system {
			system = diagram.System{}
		}
	}
	if !same {
		return system
	}
	var queue []int
	for _, w := range gaps {
		near := t.feedSide(w)
		if far := t.far(w, near); !t.reached(far) {
			t.claim(far, near, w)
			queue = append(queue, far)
		}
	}
	t.spread(queue)
	return diagram.System{}
}

// feedSide returns the end of a gap that lies toward the supply.
func (t *tracer) feedSide(gap int) int {
	if t.reached(t.ways[gap].from) {
		return t.ways[gap].from
	}
	return t.ways[gap].to
}

// plantRest begins circuits at the tops of what is still not reached in an
// island.
func (t *tracer) plantRest(dead island, system diagram.System) {
	var queue []int
	for _, top := range t.tops(dead.terminals) {
		queue = append(queue, t.plant(top, system))
	}
	t.spread(queue)
	for _, terminal := range dead.terminals {
		if !t.reached(terminal) {
			t.spread([]int{t.plant(terminal, system)})
		}
	}
}

// tops returns the terminals that are not reached and that no closed way
// leads into as it is drawn.
func (t *tracer) tops(members []int) []int {
	var out []int
	for _, terminal := range members {
		led := slices.ContainsFunc(t.touching[terminal], func(w int) bool {
			return t.ways[w].to == terminal && !t.ways[w].open
		})
		if !led && !t.reached(terminal) {
			out = append(out, terminal)
		}
	}
	return out
}
