package analysis

import (
	"fmt"
	"slices"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// load compares what a load is made for with what its bus can give.
func (t *tracer) load(part *diagram.Part, node *Node) []Finding {
	if !node.System.Known() || node.Up == nil {
		return nil
	}
	why := lacks(part.Load, node.System)
	if why == "" {
		return nil
	}
	return []Finding{{
		Rule: "voltage.load", Severity: Error, Subject: SubjectVoltage, Records: []diagram.ID{part.ID, node.Up.At.Part},
		What:   fmt.Sprintf("%s does not fit %s at %s", nameOf(part), node.System, t.giver(node)),
		Why:    why,
		Remedy: "correct the load's connection or voltage, or feed it from another bus",
	}}
}

// lacks says what a bus lacks for a load, or nothing.
func lacks(load diagram.LoadData, bus diagram.System) string {
	lines, neutral := terminalsOf(load.Connection)
	switch {
	case lines > bus.Lines():
		return fmt.Sprintf("it needs %s and the bus has %d", unit.CountOf(lines, "line"), bus.Lines())
	case neutral && !bus.Neutral:
		return "it needs a neutral and the bus has none"
	}
	offers := offered(load.Connection, bus)
	fits := func(offer float64) bool { return SameVoltage(load.Voltage, offer) }
	if load.Voltage <= 0 || slices.ContainsFunc(offers, fits) {
		return ""
	}
	return fmt.Sprintf("it is made for %s, and the bus gives %s there", figureOf(load.Voltage, "V"), figureOf(offers[0], "V"))
}

// terminalsOf returns how many lines a connection needs, and whether a
// neutral.
func terminalsOf(c diagram.Connection) (lines int, neutral bool) {
	switch c {
	case diagram.ToNeutral:
		return 1, true
	case diagram.BetweenLines:
		return 2, false
	case diagram.ThreeWire:
		return 3, false
	case diagram.ThreeWireStar:
		return 3, true
	}
	return 1, false
}

// offered returns the voltages that a bus has for a connection, the usual one
// first. There is at least one where the bus has the terminals.
func offered(c diagram.Connection, bus diagram.System) []float64 {
	var out []float64
	if c != diagram.ToNeutral && bus.Lines() > 1 {
		out = append(out, bus.Voltage)
	}
	if (c == diagram.ToNeutral || c == diagram.ThreeWireStar || c == "") && bus.Neutral {
		out = append(out, bus.LineToNeutral(), bus.HighestToNeutral())
	}
	return out
}

// LinesOf returns how many lines of its bus a part is connected to: of a load
// those that its connection takes, of any other part all.
func LinesOf(part diagram.Part, bus diagram.System) int {
	if part.Kind == diagram.Load && part.Load.Connection != "" {
		lines, _ := terminalsOf(part.Load.Connection)
		return min(lines, bus.Lines())
	}
	return bus.Lines()
}
