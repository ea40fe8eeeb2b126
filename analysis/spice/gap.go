package spice

import (
	"fmt"

	"clampline/analysis/circuit"
)

// latchShare is the time constant of a latch over the longest step: so short
// that a gap fires and opens at once, as far as a peak can tell.
const latchShare = 0.01

// gapModel is what all gaps have in common. Its comparisons are steep instead
// of sudden, and a gap that opens on a current in an inductance lets it die at
// the sparkover voltage: otherwise the simulator would find no solution.
var gapModel = [...]string{
	"* Beyond the level of its voltage a gap conducts by the resistance of its arc. The level is the arc voltage while",
	"* it is fired, and just above the sparkover voltage while it is not. Two latches remember its state: voltages that",
	"* go to 0 or 1 as their current sources say, within a hundredth of a step (a capacitor with 1 ohm across).",
	"* fired: set by the sparkover voltage; stays until the current, once held, falls below the holding current, or for",
	"* good where a gap has none.",
	"* held: set when the fired gap carries the holding current; stays while it is fired.",
	".func over(x,limit) {u2(0.5+50*(abs(x)/limit-1))}",
	".func set(latch) {u2(5*latch-2)}",
	".func fires(v,i,fired,held,spark,hold) {max(over(v,spark),set(fired)*max(over(i,hold),1-held))}",
	".func holds(i,fired,held,hold) {set(fired)*max(over(i,1.03*hold),set(held))}",
	".func level(fired,spark,arc) {1.02*spark+(arc-1.02*spark)*u2(3*fired-2)}",
	".func gap(v,fired,spark,arc,ohms,hold,off) {v/off+v*fired*hold/spark+sgn(v)*max(abs(v)-level(fired,spark,arc),0)/ohms}",
}

// gaps writes each gap as a current that depends on the voltage and on two
// latches, which remember its state.
func (d *deck) gaps() {
	d.section(len(d.n.Gaps), "gaps")
	if len(d.n.Gaps) == 0 {
		return
	}
	for _, line := range gapModel {
		d.line("%s", line)
	}
	for i, g := range d.n.Gaps {
		d.comment("%s: sparkover %.6g V, arc %.6g V and %.6g ohm, holds from %.6g A", text(g.Name), g.Spark, g.Arc, g.Ohms, g.Hold)
		d.gap(g, fmt.Sprintf("gap%d", i+1))
	}
}

func (d *deck) gap(g circuit.Gap, key string) {
	name := join(key, g.Name)
	v := volts(key, d.node(g.B))
	i := "i(V" + name + ")"
	fired, held := key+"_fired", key+"_held"
	d.line("V%s %s %s 0", name, d.node(g.A), key)
	d.line("B%s %s %s I=gap(%s,v(%s),%s,%s,%s,%s,%s)", name, key, d.node(g.B), v, fired, number(g.Spark), number(g.Arc), number(g.Ohms), number(g.Hold), number(g.Off))
	if g.Hold == 0 { // it stays fired
		d.latch(fired, fmt.Sprintf("max(over(%s,%s),set(v(%s)))", v, number(g.Spark), fired))
		return
	}
	d.latch(fired, fmt.Sprintf("fires(%s,%s,v(%s),v(%s),%s,%s)", v, i, fired, held, number(g.Spark), number(g.Hold)))
	d.latch(held, fmt.Sprintf("holds(%s,v(%s),v(%s),%s)", i, fired, held, number(g.Hold)))
}

// latch writes a node whose voltage follows a condition of 0 or 1.
func (d *deck) latch(node, condition string) {
	d.line("B%s 0 %s I=%s", node, node, condition)
	d.line("R%s %s 0 1", node, node)
	d.line("C%s %s 0 %s", node, node, number(latchShare*d.o.Step))
}

// gapName returns the element through which the current of a gap flows.
func gapName(n *circuit.Network, i int) string {
	return "V" + join(fmt.Sprintf("gap%d", i+1), n.Gaps[i].Name)
}
