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
	mains  [circuit.MaxConductors]float64 // V, added to what the surge makes
	v      [circuit.MaxConductors]float64 // V, a step ago; only kept where there are gaps
	peaks  [maxPairs]float64
	steps  [maxPairs]int
}

func (b *builder) newBus(i int, c *cluster) *bus {
	out := &bus{number: i, m: len(b.network.Buses[i].Conductors)}
	for k, conductor := range b.network.Buses[i].Conductors {
		out.node[k] = b.local[conductor.Node]
		out.mains[k] = b.network.Buses[i].MainsOf(k)
	}
	return out
}

// after takes the voltages of step k.
func (b *bus) after(c *cluster, k int) {
	var v [circuit.MaxConductors]float64
	for i := range b.m {
		v[i] = c.v[b.node[i]] + b.mains[i]
	}
	b.raise(&v, k)
	if c.gaps {
		b.v = v
	}
}

// peek takes the voltages at a share of step k, where the last solution is that
// of its end.
func (b *bus) peek(c *cluster, share float64, k int) {
	var v [circuit.MaxConductors]float64
	for i := range b.m {
		v[i] = b.v[i] + share*(c.v[b.node[i]]+b.mains[i]-b.v[i])
	}
	b.raise(&v, k)
}

// raise raises the peaks to the voltages of step k.
func (b *bus) raise(v *[circuit.MaxConductors]float64, k int) {
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
