package fault

import "slices"

// tree is how a section is reached from what feeds it, by the fewest steps.
type tree struct {
	order []int32 // terminals, those that feed first
	up    []int32 // by place: the way toward what feeds, or none
}

// grow reaches out from the terminals that feed.
func (b *building) grow(number int32, roots []int32) tree {
	s := &b.sections[number]
	t := tree{order: make([]int32, 0, len(s.terminals)), up: make([]int32, len(s.terminals))}
	seen := make([]bool, len(s.terminals))
	for _, root := range roots {
		if place := b.terminals[root].place; !seen[place] {
			seen[place], t.up[place] = true, none
			t.order = append(t.order, root)
		}
	}
	for done := 0; done < len(t.order); done++ {
		near := t.order[done]
		for _, w := range b.touching[near] {
			far := b.ways[w].other(near)
			if place := b.terminals[far].place; !seen[place] {
				seen[place], t.up[place] = true, w
				t.order = append(t.order, far)
			}
		}
	}
	return t
}

// eliminationOrder lists the buses from the ends of the tree to its roots.
func (t tree) eliminationOrder(b *building, buses int) []int32 {
	out := make([]int32, 0, buses)
	seen := make([]bool, buses)
	for _, terminal := range t.order {
		if bus := b.bus[terminal]; !seen[bus] {
			seen[bus] = true
			out = append(out, bus)
		}
	}
	slices.Reverse(out)
	return out
}
