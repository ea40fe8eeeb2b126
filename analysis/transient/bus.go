package transient

import (
	"math"

	"clampline/analysis/circuit"
)

// bus keeps the peaks at one bus.
type bus struct {
	number int
	m      int
	node   [4]int
	byGap  bool                           // a gap is in the cluster
	v      [circuit.MaxConductors]float64 // V, a step ago, there
	peaks  [maxPairs]float64
	steps  [maxPairs]int
}

func (b *builder) newBus(i int, c *cluster) *bus {
	out := &bus{number: i, m: len(b.network.Buses[i].Conductors)}
	for k, conductor := range b.network.Buses[i].Conductors {
		out.node[k] = b.local[conductor.Node]
	}
	return out
}

// after takes the voltages of step k, or those at a share of it where something
// fires there.
func (b *bus) after(c *cluster, share float64, k int) {
	var v [circuit.MaxConductors]float64
	for i := range b.m {
		v[i] = c.v[b.node[i]]
		if share < 1 {
			v[i] = b.v[i] + share*(v[i]-b.v[i])
		}
	}
	if b.byGap {
		for i := range b.m {
			b.v[i] = c.v[b.node[i]]
		}
	}
	at := b.m
	for i := range b.m {
		if size := math.Abs(v[i]); size > b.peaks[i] {
			b.peaks[i], b.steps[i] = size, k
		}
		for j := i + 1; j < b.m; j++ {
			if size := math.Abs(v[i] - v[j]); size > b.peaks[at] {
				b.peaks[at], b.steps[at] = size, k
			}
			at++
		}
	}
}
