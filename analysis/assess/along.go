package assess

import (
	"slices"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/analysis/transient"
	"clampline/diagram"
)

// alongFeeders returns the voltage along every feeder, in the worst mode of
// what it leads to and in the worst surge case at each place.
func alongFeeders(doc *diagram.Document, result *analysis.Result, solved []solution) map[diagram.ID]analysis.FeederResult {
	judged := findJudged(doc, result)
	out := map[diagram.ID]analysis.FeederResult{}
	for f := range doc.Feeders() {
		r := analysis.FeederResult{ID: f.ID, Samples: []analysis.Sample{{Share: 0}, {Share: 1}}}
		mode, withstand := diagram.LineEarth, 0.0
		if bus, ok := result.Buses[judged.of(f)]; ok {
			worst := bus.Worst()
			mode, withstand = worst.Mode, worst.Withstand
		}
		for _, s := range solved {
			if run, ok := s.circuit.Runs[f.ID]; ok {
				r.Samples = highest(r.Samples, s.along(run, mode))
			}
		}
		for i := range r.Samples {
			if sample := &r.Samples[i]; sample.Known {
				sample.Verdict = analysis.Judge(sample.Volts, withstand)
			}
		}
		out[f.ID] = r
	}
	return out
}

// along returns the peaks in a mode from one end of a feeder to the other.
func (s solution) along(run extract.Run, mode diagram.Mode) []analysis.Sample {
	n := s.circuit.Network
	at := func(bus int, share float64) analysis.Sample {
		for _, peak := range peaksOf(n.Buses[bus], s.result.Buses[bus]) {
			if peak.Mode == mode {
				return analysis.Sample{Share: share, Known: true, Volts: peak.Volts}
			}
		}
		return analysis.Sample{Share: share}
	}
	out := []analysis.Sample{at(run.From, 0)}
	if run.Line >= 0 {
		bus := conductorsOf(n, run)
		for _, place := range s.result.Lines[run.Line] {
			out = append(out, inside(bus, place, mode))
		}
	}
	return append(out, at(run.To, 1))
}

// conductorsOf returns the conductors that a line has of those of its end.
func conductorsOf(n *circuit.Network, run extract.Run) circuit.Bus {
	line, end := n.Lines[run.Line], n.Buses[run.To]
	out := circuit.Bus{Name: line.Name}
	for _, node := range line.B {
		at := slices.IndexFunc(end.Conductors, func(c circuit.Conductor) bool { return c.Node == node })
		out.Conductors = append(out.Conductors, end.Conductors[at])
	}
	return out
}

func inside(bus circuit.Bus, place transient.LinePeak, mode diagram.Mode) analysis.Sample {
	out := analysis.Sample{Share: place.Share}
	for i, pair := range circuit.Pairs(len(bus.Conductors)) {
		if modeOf(bus, pair) == mode {
			out.Known, out.Volts = true, max(out.Volts, place.Volts[i])
		}
	}
	return out
}

// highest joins two profiles of one feeder into their upper hull. Their places
// are the same, or else one has only the ends and counts evenly between them.
func highest(a, b []analysis.Sample) []analysis.Sample {
	if len(a) < len(b) {
		a, b = b, a
	}
	out := slices.Clone(a)
	for i := range out {
		if len(a) == len(b) {
			raise(&out[i], b[i])
		} else {
			raise(&out[i], onTheWay(b[0], b[len(b)-1], out[i].Share))
		}
	}
	return out
}

// onTheWay returns the voltage between the ends of a feeder that has only these: it
// goes evenly from one to the other, as along an inductance.
func onTheWay(from, to analysis.Sample, share float64) analysis.Sample {
	switch share {
	case from.Share:
		return from
	case to.Share:
		return to
	}
	return analysis.Sample{Share: share, Known: from.Known && to.Known, Volts: from.Volts + share*(to.Volts-from.Volts)}
}

func raise(a *analysis.Sample, b analysis.Sample) {
	if b.Known && (!a.Known || b.Volts > a.Volts) {
		a.Known, a.Volts = true, b.Volts
	}
}
