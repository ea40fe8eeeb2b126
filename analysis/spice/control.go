package spice

import (
	"fmt"
	"strings"

	"clampline/analysis/circuit"
)

// analysis writes what is to be done with the circuit: which waves to keep, the run
// itself, and what to print of it.
func (d *deck) analysis() {
	d.section(1, "the run")
	d.comment("Errors are kept below a tenth of what is usual in relation to a wave, and above what is usual for small signals.")
	d.line(".options method=trap reltol=1e-4 abstol=1e-6 vntol=1e-4 chgtol=1e-11 itl4=100")
	d.save()
	d.line(".tran %s %s 0 %s uic", number(d.o.Step), number(d.o.Duration), number(d.o.Step))
	d.line("")
	d.line(".control")
	d.line("define larger(x,y) ((x)+(y)+abs((x)-(y)))/2")
	d.line("run")
	d.checkEnd()
	for _, m := range busMeasures(d.n) {
		if d.ended() {
			return
		}
		d.measureBus(m)
	}
	for _, m := range limiterMeasures(d.n) {
		d.measureLimiter(m)
	}
	d.line("quit")
	d.line(".endc")
	d.line(".end")
}

// checkEnd refuses to print numbers of a run that broke off.
func (d *deck) checkEnd() {
	d.line("if time[length(time)-1] > %s", number(d.o.Duration*(1-1e-6)))
	d.line("  echo ran to the end")
	d.line("else")
	d.line("  echo %s", brokeOff)
	d.line("  quit 1")
	d.line("end")
}

// save names the waves that measures need; all others are forgotten.
func (d *deck) save() {
	needed := make([]bool, len(d.nodes))
	for _, bus := range d.n.Buses {
		for _, c := range bus.Conductors {
			needed[c.Node] = true
		}
	}
	for _, m := range limiterMeasures(d.n) {
		needed[m.a], needed[m.b] = true, true
		d.line(".save %s", m.current())
	}
	for node, name := range d.nodes {
		if needed[node] && circuit.Node(node) != circuit.Earth {
			d.line(".save v(%s)", name)
		}
	}
}

// measureBus prints the worst of a mode of a bus.
func (d *deck) measureBus(m busMeasure) {
	bus := d.n.Buses[m.bus]
	d.comment("%s, %s", text(bus.Name), m.mode)
	worst := d.magnitude(bus, m.pairs[0])
	for _, p := range m.pairs[1:] {
		worst = fmt.Sprintf("larger(%s,%s)", worst, d.magnitude(bus, p))
	}
	d.line("let worst = %s", worst)
	d.line("meas tran %s MAX worst", m.named(PeakVolts))
	d.line("meas tran %s MAX_AT worst", m.named(PeakTime))
}

// magnitude returns the formula of the magnitude of a voltage of a bus.
func (d *deck) magnitude(bus circuit.Bus, p circuit.Pair) string {
	to := circuit.Earth
	if p.To != circuit.ToEarth {
		to = bus.Conductors[p.To].Node
	}
	volts := d.across(bus.Conductors[p.From].Node, to)
	if mains := bus.MainsOf(p.From) - bus.MainsOf(p.To); mains != 0 {
		volts += " + " + number(mains)
	}
	return "abs(" + volts + ")"
}

// current returns the wave of the current.
func (m limiterMeasure) current() string {
	if m.varistor >= 0 {
		return "@" + strings.ToLower(m.element) + "[i]"
	}
	return "i(" + m.element + ")"
}

// measureLimiter prints what a varistor or gap bears.
func (d *deck) measureLimiter(m limiterMeasure) {
	d.comment("%s", text(m.name))
	d.line("let current = abs(%s)", m.current())
	d.line("let power = %s*%s", d.across(m.a, m.b), m.current())
	d.line("meas tran %s MAX current", m.named(PeakAmps))
	d.line("meas tran %s INTEG current", m.named(Charge))
	d.line("meas tran %s INTEG power", m.named(Energy))
}
