package handrule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// outcome is what one mode of a place comes to, with what it came from.
type outcome struct {
	mode     diagram.Mode
	known    bool
	volts    float64
	distance float64 // of wiring from the cover, m
	cover    *cover  // nil where nothing reaches it, and for a bond here
	instead  bool    // the cover is that of the mode which a bond makes the same
	reason   analysis.Reason
	host     int                // the place of the protector that decides or does not count
	who      *diagram.Protector // nil where there is none
	edge     boundary           // what lies between, where something does
}

// outcome finds the voltage in a mode at a place.
func (s *solver) outcome(i int, mode diagram.Mode) outcome {
	p := &s.places[i]
	out := outcome{mode: mode}
	bonded := joined(p)
	if bonded && mode == diagram.NeutralEarth {
		out.known, out.reason = true, analysis.Bonded
		return out
	}
	out.take(p, mode, s.rule)
	if twin, ok := twinOf(mode); ok && bonded {
		other := outcome{mode: mode}
		other.take(p, twin, s.rule)
		if other.known && (!out.known || other.volts < out.volts) {
			out = other
			out.instead = true
		}
	}
	if !out.known {
		s.uncovered(p, &out)
		return out
	}
	out.host, out.who = out.cover.host, out.cover.first.protector // none where a bond holds it
	out.reason = reachedBy(out.cover, i, out.distance)
	return out
}

// take fills in the lowest voltage that reaches the place in a mode.
func (o *outcome) take(p *place, mode diagram.Mode, rule Rule) {
	o.cover, o.volts, o.distance = p.reach.fronts[mode].lowest(p.node.Total, rule)
	o.known = o.cover != nil
}

// twinOf returns the mode that a bond of neutral and earth makes the same as
// another.
func twinOf(mode diagram.Mode) (diagram.Mode, bool) {
	switch mode {
	case diagram.LineNeutral:
		return diagram.LineEarth, true
	case diagram.LineEarth:
		return diagram.LineNeutral, true
	}
	return mode, false
}

func reachedBy(c *cover, i int, distance float64) analysis.Reason {
	switch {
	case c.isBond():
		return analysis.NearBond
	case c.from == i && c.below():
		return analysis.JustBelow
	case c.host == i && c.added > 0:
		return analysis.LongLeads
	case c.host == i:
		return analysis.AtProtector
	case distance < c.far:
		return analysis.NearProtector
	}
	return analysis.Distance
}

// uncovered finds why nothing holds a mode: a protector in reach that does
// not count, then one beyond a transformer or open switch upstream, then one
// downstream.
func (s *solver) uncovered(p *place, out *outcome) {
	region := p.region
	below := region.first[out.mode]
	switch refused := p.reach.refused[out.mode]; {
	case refused != nil:
		out.reason, out.who, out.host = refused.reason, refused.protector, refused.host
	case region.past != nil:
		out.beyond(region.past)
	case below != nil:
		out.reason, out.who, out.host = analysis.Downstream, below.first.protector, below.host
	case region.behind != nil:
		out.beyond(region.behind)
	default:
		out.reason = analysis.NoProtector
	}
}

func (o *outcome) beyond(b *beyond) {
	o.reason, o.edge = b.edge.reason, b.edge
	o.who, o.host = b.cover.first.protector, b.cover.host
}

// verdict judges an outcome against a withstand; a bond holds whatever the
// withstand is.
func (o *outcome) verdict(withstand float64) analysis.Verdict {
	switch {
	case o.reason == analysis.Bonded:
		return analysis.Held
	case o.known:
		return analysis.Judge(o.volts, withstand)
	case o.reason == analysis.NoRating || o.reason == analysis.NoSystem:
		return analysis.Unknown
	}
	return analysis.Unreached
}

// appendLevels appends the levels of a board or load, the worst first, with their
// workings where they are to be explained.
func (s *solver) appendLevels(levels []analysis.Level, i int, explain bool) []analysis.Level {
	p := &s.places[i]
	if !p.node.System.Known() {
		level := analysis.Level{Mode: diagram.LineEarth, Reason: analysis.NoSystem, Judged: true, Why: "The system at " + nameOf(p.part) + " is not known"}
		if explain {
			level.Working.Add(analysis.Step{Label: "system", Text: level.Why})
		}
		return append(levels, level)
	}
	start := len(levels)
	judged := judgedModes(p.part, p.node.System, p.reach.ratesLine)
	for _, mode := range diagram.Modes() {
		if p.node.System.HasMode(mode) {
			level := s.level(i, mode, explain)
			level.Judged = judged[mode]
			levels = append(levels, level)
		}
	}
	slices.SortFunc(levels[start:], analysis.WorstFirst)
	return levels
}

func (s *solver) level(i int, mode diagram.Mode, explain bool) analysis.Level {
	p := &s.places[i]
	o := s.outcome(i, mode)
	level := analysis.Level{Mode: mode, Known: o.known, Volts: o.volts, Reason: o.reason, Why: s.why(p, &o)}
	var w *analysis.Working
	if explain {
		w = new(analysis.Working)
		s.explain(&o, level.Why, w)
	}
	level.Withstand = Withstand(p.part.Withstand, p.node.System, mode, w)
	level.Verdict = o.verdict(level.Withstand)
	if explain {
		AddShare(w, level, level.Withstand)
		level.Working = *w
	}
	if o.who != nil {
		level.Protector = o.who.ID
	}
	if level.Known && level.Verdict == analysis.Unknown {
		level.Reason = analysis.NoWithstand
		level.Why = "The withstand of " + nameOf(p.part) + " is not known"
	}
	return level
}
