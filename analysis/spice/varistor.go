package spice

import (
	"fmt"
	"strings"

	"clampline/analysis/circuit"
)

// pointsPerLine is how many points of a curve stand on a line.
const pointsPerLine = 6

// varistors writes each curve once and each varistor as a current by its curve.
func (d *deck) varistors() {
	d.section(len(d.n.Varistors), "curves: volts, amperes; straight between points and beyond the last")
	for _, v := range d.n.Varistors {
		if d.curves[v.Curve] == "" {
			d.curve(v.Curve)
		}
	}
	d.section(len(d.n.Varistors), "varistors")
	for i, v := range d.n.Varistors {
		d.comment("%s", text(v.Name))
		d.line("%s %s I=%s(%s)", varistorName(d.n, i), d.pair(v.A, v.B), d.curves[v.Curve], d.across(v.A, v.B))
	}
}

func varistorName(n *circuit.Network, i int) string {
	return "B" + join(fmt.Sprintf("var%d", i+1), n.Varistors[i].Name)
}

// curve writes a curve as a function of the voltage.
func (d *deck) curve(c *circuit.Curve) {
	name := join(fmt.Sprintf("curve%d", len(d.curves)+1), c.Name)
	d.curves[c] = name
	d.comment("%s", text(c.Name))
	d.line(".func %s(v) {sgn(v)*pwl(abs(v),%s)}", name, points(c))
}

// points returns the points of a curve on as many lines as they need.
func points(c *circuit.Curve) string {
	var b strings.Builder
	for i := range c.Volts {
		if i%pointsPerLine == 0 {
			b.WriteString("\n+")
		}
		b.WriteString(" ")
		b.WriteString(number(c.Volts[i]) + "," + number(c.Amps[i]))
		if i+1 < len(c.Volts) {
			b.WriteString(",")
		}
	}
	return b.String()
}
