package transient

import (
	"clampline/analysis/circuit"
)

// bus keeps the peaks at one bus.
type bus struct {
	number int
	m      int
	node   [circuit.MaxConductors]int
	front  bool // as that of an end of a line
	mains  wave // V, added to what the surge makes
	peaks  extremes
}

func (b *builder) newBus(i int, c *cluster) *bus {
	out := &bus{number: i, m: len(b.network.Buses[i].Conductors)}
	for k, conductor := range b.network.Buses[i].Conductors {
		out.node[k] = b.local[conductor.Node]
		out.mains[k] = b.network.Buses[i].MainsOf(k)
	}
	out.front = out.m == circuit.MaxConductors && out.node == [circuit.MaxConductors]int{0, 1, 2, 3}
	return out
}

// look takes the voltages of the n steps after done.
func (b *bus) look(c *cluster, done, n int) {
	volts, width := c.volts[c.width:], c.width
	if !b.front {
		volts, width = c.gather(&b.node, b.m, n), circuit.MaxConductors
	}
	b.peaks.look(volts, width, n, &b.mains, done+1)
}

// peek takes the voltages at a share of step k, where the last solution is that
// of its end.
func (b *bus) peek(c *cluster, share float64, k int) {
	var v wave
	old := c.before()
	for i := range b.m {
		v[i] = old[b.node[i]] + share*(c.v[b.node[i]]-old[b.node[i]])
	}
	b.peaks.look(v[:], len(v), 1, &b.mains, k)
}

// pairs are those of so many conductors.
var pairs = func() (out [circuit.MaxConductors + 1][]circuit.Pair) {
	for m := range out {
		out[m] = circuit.Pairs(m)
	}
	return out
}()

// of returns the greatest magnitude of a pair, and its step.
func (e *extremes) of(p circuit.Pair) (volts float64, step int) {
	row, at := 0, p.From
	if p.To != circuit.ToEarth {
		if row = p.To - p.From; row == 3 {
			row, at = 1, p.To
		}
	}
	return e.volts[row][at], int(e.steps[row][at])
}
