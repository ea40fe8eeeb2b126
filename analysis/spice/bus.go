package spice

import (
	"strings"

	"clampline/analysis/circuit"
)

// buses lists in comments what the conductors of each bus are called.
func (d *deck) buses() {
	d.section(len(d.n.Buses), "buses: their voltages are asked for; 0 is the earth bar of each")
	for _, bus := range d.n.Buses {
		d.comment("%s: %s", text(bus.Name), strings.Join(d.conductors(bus), ", "))
	}
}

// conductors returns letter and node of each conductor of a bus.
func (d *deck) conductors(bus circuit.Bus) []string {
	out := make([]string, len(bus.Conductors))
	for i, c := range bus.Conductors {
		out[i] = text(string(rune(c.Letter))) + " " + d.node(c.Node)
	}
	return out
}
