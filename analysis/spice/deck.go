package spice

import (
	"context"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"clampline/analysis/circuit"
)

// Options say how a deck runs and what it says of itself.
type Options struct {
	Title    string   // of the deck; one line
	Notes    []string // comments at its head, such as cautions and assumptions
	Step     float64  // s, the longest step; above zero, not longer than the delay of any line
	Duration float64  // s; not shorter than the step
}

// Write writes the network as a deck. An error says what is wrong with the
// network or the options, or comes from w; nothing is written in the first case.
// It stops where the context ends, with its error; nothing is written then.
func Write(ctx context.Context, w io.Writer, n *circuit.Network, o Options) error {
	if err := n.Validate(); err != nil {
		return err
	}
	if err := o.check(n); err != nil {
		return err
	}
	d := &deck{ended: func() bool { return ctx.Err() != nil }, n: n, o: o, nodes: nodeNames(n), curves: map[*circuit.Curve]string{}}
	if err := d.checkSources(); err != nil {
		return err
	}
	d.write()
	if err := ctx.Err(); err != nil {
		return err
	}
	_, err := io.WriteString(w, d.String())
	return err
}

func (o Options) check(n *circuit.Network) error {
	switch {
	case !(o.Step > 0) || math.IsInf(o.Step, 0):
		return fmt.Errorf("the step is %g s; it must be a number above zero", o.Step)
	case !(o.Duration >= o.Step) || math.IsInf(o.Duration, 0):
		return fmt.Errorf("the duration is %g s; it must be a number not below the step", o.Duration)
	}
	for _, l := range n.Lines {
		if l.Delay < o.Step*(1-1e-9) {
			return fmt.Errorf("line %s: its delay of %g s is shorter than the step of %g s; take a shorter step", l.Name, l.Delay, o.Step)
		}
	}
	return nil
}

// deck is one in the making.
type deck struct {
	strings.Builder
	ended  func() bool // whether nobody waits for the deck any more: then no line is made
	n      *circuit.Network
	o      Options
	nodes  []string                  // name of each node
	curves map[*circuit.Curve]string // name of each curve that is written
}

func (d *deck) write() {
	for _, part := range []func(){
		d.head, d.buses, d.lines, d.resistors, d.capacitors, d.inductors, d.windings, d.sources, d.varistors, d.gaps, d.diodes, d.analysis,
	} {
		if d.ended() {
			return
		}
		part()
	}
}

// head writes the title, the notes and what holds for the whole run.
func (d *deck) head() {
	title := text(d.o.Title)
	if title == "" {
		title = "Surge circuit"
	}
	d.line("* %s", title)
	d.comment("SI units throughout. Run it with: ngspice -b FILE")
	for _, note := range d.o.Notes {
		for _, line := range strings.Split(note, "\n") {
			d.comment("%s", text(line))
		}
	}
}

// line writes a line.
func (d *deck) line(format string, args ...any) {
	if d.ended() {
		return
	}
	fmt.Fprintf(d, format, args...)
	d.WriteByte('\n')
}

// comment writes a line that the simulator passes over. The space matters: it
// would obey what follows "*#".
func (d *deck) comment(format string, args ...any) { d.line("* "+format, args...) }

// section begins a part of the deck that holds count things, if any.
func (d *deck) section(count int, format string, args ...any) {
	if count > 0 {
		d.line("")
		d.comment("---- "+format, args...)
	}
}

// node returns the name of a node.
func (d *deck) node(n circuit.Node) string { return d.nodes[n] }

// pair returns the names of two nodes as an element wants them.
func (d *deck) pair(a, b circuit.Node) string { return d.node(a) + " " + d.node(b) }

// across returns the formula of the voltage between two nodes.
func (d *deck) across(a, b circuit.Node) string { return volts(d.node(a), d.node(b)) }

// volts does the same for nodes of the deck.
func volts(a, b string) string {
	switch {
	case a == "0" && b == "0":
		return "0"
	case b == "0":
		return "v(" + a + ")"
	case a == "0":
		return "-v(" + b + ")"
	}
	return "v(" + a + "," + b + ")"
}

// number writes a value as the simulator reads it, to more digits than it can
// make use of.
func number(x float64) string { return strconv.FormatFloat(x, 'g', 12, 64) }
