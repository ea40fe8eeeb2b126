package spice

import "fmt"

// diodes writes each as a current of two straight pieces. The simulator goes on
// with a piece beyond its last point.
func (d *deck) diodes() {
	d.section(len(d.n.Diodes), "diodes: volts, amperes; straight through these points and beyond the last")
	for i, x := range d.n.Diodes {
		key := join(fmt.Sprintf("diode%d", i+1), x.Name)
		d.line("B%s %s I=pwl(%s,-1,%s,0,0,1,%s)", key, d.pair(x.A, x.B), d.across(x.A, x.B), number(-1/x.Off), number(1/x.On))
	}
}
