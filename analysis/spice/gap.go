package spice

import (
	"fmt"

	"clampline/analysis/circuit"
)

// latchShare is the time constant of a latch over the longest step: so short
// that a gap fires and opens at once, as far as a peak can tell.
const latchShare = 0.1

// gapModel is what all gaps have in common. With ideal switching the simulator
// would find no solution where a gap opens on the current of an inductance.
// Comparisons are therefore steep instead of sudden, an open gap lets no
// voltage stand above its sparkover, and the path of an arc that goes out
// conducts a little, at most the holding current, until the latches have settled.
var gapModel = [...]string{
	"* Beyond the level of its voltage a gap conducts by the resistance of its arc. The level is the arc voltage while",
	"* it is fired, and just above the sparkover voltage while it is not. Two latches remember its state: voltages that",
	"* go to 0 or 1 as their current sources say, within a tenth of a step (a capacitor with 1 ohm across).",
	"* fired: set by the sparkover voltage; stays until the current, once held, falls below the holding current, or for",
	"* good where a gap has none.",
	"* held: set when the fired gap carries the holding current; stays while it is fired.",
	"* rest: the resistance of the open gap, and while the latches settle that of the path which the arc leaves.",
	".func over(x,limit) {u2(0.5+50*(abs(x)/limit-1))}",
	".func set(latch) {u2(5*latch-2)}",
	".func fires(v,i,fired,held,spark,hold) {max(over(v,spark),set(fired)*max(over(i,hold),1-held))}",
	".func holds(i,fired,held,hold) {set(fired)*max(over(i,1.03*hold),set(held))}",
	".func level(fired,spark,volts) {1.02*spark+(volts-1.02*spark)*u2(3*fired-2)}",
	".func arc(v,fired,spark,volts,ohms) {sgn(v)*max(abs(v)-level(fired,spark,volts),0)/ohms}",
	".func rest(v,held,spark,hold,off) {v/off+v*held*hold/spark}",
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
		d.comment("%s: sparkover %.6g V, arc %.6g V and %.6g ohm, holds from %.6g A", text(g.Name), g.Sparkover, g.Arc, g.Ohms, g.Hold)
		d.gap(g, fmt.Sprintf("gap%d", i+1))
	}
}

func (d *deck) gap(g circuit.Gap, key string) {
	name := join(key, g.Name)
	v := volts(key, d.node(g.B))
	i := "i(V" + name + ")"
	fired, held := key+"_fired", key+"_held"
	d.line("V%s %s %s 0", name, d.node(g.A), key)
	arc := fmt.Sprintf("arc(%s,v(%s),%s,%s,%s)", v, fired, number(g.Sparkover), number(g.Arc), number(g.Ohms))
	if g.Hold == 0 { // it stays fired
		d.line("B%s %s %s I=%s+%s/%s", name, key, d.node(g.B), arc, v, number(g.Off))
		d.latch(fired, fmt.Sprintf("max(over(%s,%s),set(v(%s)))", v, number(g.Sparkover), fired))
		return
	}
	rest := fmt.Sprintf("rest(%s,v(%s),%s,%s,%s)", v, held, number(g.Sparkover), number(g.Hold), number(g.Off))
	d.line("B%s %s %s I=%s+%s", name, key, d.node(g.B), arc, rest)
	d.latch(fired, fmt.Sprintf("fires(%s,%s,v(%s),v(%s),%s,%s)", v, i, fired, held, number(g.Sparkover), number(g.Hold)))
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
