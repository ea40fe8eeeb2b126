package fault

import (
	"context"

	"clampline/analysis"
	"clampline/diagram"
)

// Solve returns the fault current at every terminal of the building that is
// fed, or would be with an open switch closed, on the topology that
// analysis.Trace gave for the same document, by the method and with the
// tolerance that the sheet's codes choose. A current is the highest over all
// positions of the transfer switches; where it is not known in one of them, it
// is not known. By point to point there is no ratio of reactance to resistance.
// The last assumptions of each are listed; Explain lists all and makes the
// workings. The cost grows with the number of records.
// It stops where the context ends, with its error.
func Solve(ctx context.Context, doc *diagram.Document, topology *analysis.Topology) (map[diagram.End]analysis.Fault, error) {
	parts := devicesOf(doc)
	b := newBuilding(doc, topology, parts, rulesOf(doc, parts))
	b.ended = func() bool { return ctx.Err() != nil }
	b.feedAll()
	out := make(map[diagram.End]analysis.Fault, len(b.terminals))
	for i := range b.terminals {
		if b.ended() {
			return nil, ctx.Err()
		}
		if f, _, ok := b.faultAt(int32(i), shown); ok {
			out[f.At] = f
		}
	}
	return out, ctx.Err()
}

// faultAt returns the fault current at a terminal, with at most the given
// number of assumptions and the alternative that gives the highest, and false
// where nothing feeds it.
func (b *building) faultAt(t int32, limit int) (analysis.Fault, *alternative, bool) {
	s := b.sectionOf(t)
	if len(s.alternatives) == 0 {
		at := &b.terminals[t]
		f := analysis.Fault{At: at.at, Why: "what feeds " + b.nameOf(t) + " does not fit the system stated there"}
		return f, nil, at.node != nil && at.node.Fed
	}
	out := b.under(s.alternatives[0], t)
	from := s.alternatives[0]
	for _, a := range s.alternatives[1:] {
		if !out.Known {
			break
		}
		other := b.under(a, t)
		if !other.Known || other.Highest() > out.Highest() {
			out, other, from = other, out, a
		}
		if out.Known {
			out.ThreePhase = max(out.ThreePhase, other.ThreePhase)
			out.LineLine = max(out.LineLine, other.LineLine)
			out.LineNeutral = max(out.LineNeutral, other.LineNeutral)
			out.LineEarth = max(out.LineEarth, other.LineEarth)
		}
	}
	n := from.notes[b.terminals[t].place]
	out.Estimated = n.isEstimated()
	out.Assumptions = n.assumptions(limit)
	return out, from, true
}

// under returns the fault current at a terminal in one way of feeding it,
// without assumptions.
func (b *building) under(a *alternative, t int32) analysis.Fault {
	terminal := &b.terminals[t]
	f := analysis.Fault{At: terminal.at}
	bus := b.bus[t]
	switch {
	case a.why[bus] != "":
		f.Why = a.why[bus]
		return f
	case !known(terminal.system):
		f.Why = "the system that arrives at " + b.nameOf(t) + " is not known"
		return f
	case a.line.loose[bus]:
		f.Why = "nothing feeds " + b.nameOf(t)
		return f
	}
	f.Known, f.Why = true, a.reason
	z := b.seenAt(a, t)
	b.currents(&f, terminal.part, terminal.system, z, nil)
	f.XR = b.steepest(&f, terminal.system, z)
	return f
}

// seenAt returns what a fault at a terminal sees in one way of feeding it.
func (b *building) seenAt(a *alternative, t int32) seen {
	bus, volts := b.bus[t], complex(b.terminals[t].system.Voltage, 0)
	z := seen{line: a.line.z[bus] * volts * volts}
	if a.back != nil && !a.back.loose[bus] {
		z.hasBack, z.back = true, a.back.z[bus]*volts*volts
	}
	return z
}
