package spice

import (
	"fmt"
	"math"

	"clampline/analysis/circuit"
)

func (d *deck) resistors() {
	d.section(len(d.n.Resistors), "resistors")
	for i, r := range d.n.Resistors {
		d.line("R%s %s %s", join(fmt.Sprintf("res%d", i+1), r.Name), d.pair(r.A, r.B), number(r.Ohms))
	}
}

func (d *deck) capacitors() {
	d.section(len(d.n.Capacitors), "capacitors")
	for i, c := range d.n.Capacitors {
		start := ""
		if c.Charged != 0 {
			start = " ic=" + number(c.Charged)
		}
		d.line("C%s %s %s%s", join(fmt.Sprintf("cap%d", i+1), c.Name), d.pair(c.A, c.B), number(c.Farads), start)
	}
}

// inductors writes each inductor as its branches, coupled in pairs.
func (d *deck) inductors() {
	d.section(len(d.n.Inductors), "inductors: leads, bonds and short feeders, their branches coupled in pairs")
	for i, c := range d.n.Inductors {
		d.comment("%s", text(c.Name))
		key := fmt.Sprintf("inductor%d", i+1)
		for j, b := range c.Branches {
			d.branch(branch{fmt.Sprintf("%s_%d", key, j+1), c.Name, d.node(b.A), d.node(b.B), c.Mutual(j, j), c.Ohms[j]})
		}
		d.couplings(key, c)
	}
}

func (d *deck) couplings(key string, c circuit.Inductor) {
	name := func(j int) string { return "L" + join(fmt.Sprintf("%s_%d", key, j+1), c.Name) }
	for j := range c.Branches {
		for k := range j {
			if c.Mutual(j, k) != 0 {
				coupling := c.Mutual(j, k) / math.Sqrt(c.Mutual(j, j)*c.Mutual(k, k))
				d.line("K%s %s %s %s", join(fmt.Sprintf("%s_%d_%d", key, k+1, j+1), c.Name), name(k), name(j), number(coupling))
			}
		}
	}
}

// branch is an inductance with a resistance in series, which may be zero.
type branch struct {
	key, name     string
	from, to      string
	henries, ohms float64
}

func (d *deck) branch(b branch) {
	name, end := join(b.key, b.name), b.to
	if b.ohms > 0 {
		end = b.key
		d.line("R%s %s %s %s", name, end, b.to, number(b.ohms))
	}
	d.line("L%s %s %s %s", name, b.from, end, number(b.henries))
}

// windings writes each as an ideal transformer. The source E holds the voltage
// of the primary over the ratio, V senses the current that leaves the
// secondary, and F draws it over the ratio from the primary.
func (d *deck) windings() {
	d.section(len(d.n.Windings), "windings: E the voltage of the primary over the ratio, V the current of the secondary, F its part in the primary")
	for i, w := range d.n.Windings {
		d.comment("%s: ratio %.6g", text(w.Name), w.Ratio)
		key := fmt.Sprintf("wind%d", i+1)
		name, emf, out := join(key, w.Name), key+"_emf", key+"_out"
		share := number(1 / w.Ratio)
		d.line("E%s %s %s %s %s", name, emf, d.node(w.S.B), d.pair(w.P.A, w.P.B), share)
		d.line("V%s %s %s 0", name, emf, out)
		d.line("F%s %s V%s %s", name, d.pair(w.P.A, w.P.B), name, share)
		d.branch(branch{key, w.Name, out, d.node(w.S.A), w.Henries, w.Ohms})
	}
}
