package extract

import "clampline/diagram"

// clusterLimit is how many places are solved together at most. A cluster costs
// time with the square of its size.
const clusterLimit = 5

// startSets puts every place in a set of its own.
func (x *extractor) startSets() {
	x.joined, x.members = make([]int, len(x.places)), make([]int, len(x.places))
	for i := range x.joined {
		x.joined[i], x.members[i] = i, 1
	}
}

func (x *extractor) setOf(i int) int {
	for x.joined[i] != i {
		x.joined[i] = x.joined[x.joined[i]]
		i = x.joined[i]
	}
	return i
}

// placeOf returns the places at the ends of a feeder. An open end is none.
func (x *extractor) placeOf(f diagram.Feeder) (a, b int) {
	b = x.at[f.To]
	if f.Switch.Open {
		return b, b
	}
	return x.at[f.From], b
}

// join puts two places in one cluster, unless that would be too large. It
// reports whether they are in one.
func (x *extractor) join(a, b int) bool {
	a, b = x.setOf(a), x.setOf(b)
	if a == b {
		return true
	}
	if x.members[a]+x.members[b] > clusterLimit {
		return false
	}
	x.joined[b] = a
	x.members[a] += x.members[b]
	return true
}

// mustJoin puts two places in one cluster, however large that is.
func (x *extractor) mustJoin(a, b int) {
	if a, b = x.setOf(a), x.setOf(b); a != b {
		x.joined[b] = a
		x.members[a] += x.members[b]
	}
}
