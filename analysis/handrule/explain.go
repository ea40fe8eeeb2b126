package handrule

import (
	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Explain returns the results of the named boards and loads, or of all where
// none is named, as Solve gives them and with the working of every level. It
// costs one Solve, and more for each bus.
func Explain(doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, rule Rule, buses ...diagram.ID) map[diagram.ID]analysis.BusResult {
	s := newSolver(doc, plan, topology, rule)
	wanted := make(map[diagram.ID]bool, len(buses))
	for _, id := range buses {
		wanted[id] = true
	}
	out := map[diagram.ID]analysis.BusResult{}
	for i := range s.places {
		p := &s.places[i]
		if p.part.Kind.IsJudged() && (len(buses) == 0 || wanted[p.part.ID]) {
			out[p.part.ID] = analysis.BusResult{ID: p.part.ID, System: p.node.System, Levels: s.appendLevels(nil, i, true)}
		}
	}
	return out
}

const (
	fromSheet    = analysis.FromSheet
	noSource     = analysis.CommonPractice
	feederAsLead = "what leads add, in the ratio of the inductances of a loop: 0.7 µH/m of conductors that run together (NFPA 70 chapter 9 table 9, reactance), 2 µH/m of leads apart (common practice); derived"
	kirchhoff    = "Kirchhoff's voltage law"
)

// explain writes how an outcome came about, or why nothing holds the mode.
func (s *solver) explain(o *outcome, why string, w *analysis.Working) {
	c := o.cover
	switch {
	case !o.known:
		w.Add(analysis.Step{Label: "cover", Text: why})
		return
	case c == nil:
		w.Add(analysis.Step{Label: "bond", Text: "neutral and earth are joined here: there is no voltage between them", Unit: "V", Source: fromSheet})
		return
	case c.isBond():
		w.Add(analysis.Step{Label: "bond", Text: "neutral and earth are joined at " + nameOf(s.places[c.host].part) + ": there is no voltage between them there", Source: fromSheet})
	case c.second.protector == nil:
		s.rule.AtBus(c.first.protector, c.first.mode, w)
	default:
		s.series(c.mode, c.first, c.second, w)
	}
	if c.below() {
		s.addFeeder(c, w)
	}
	if !c.isBond() && (c.bond || o.instead) {
		w.Add(analysis.Step{
			Label: "bond", Text: "neutral and earth are joined at the bus, so that L-N and L-G are the same there", Source: kirchhoff,
		})
	}
	if o.reason != analysis.AtProtector && o.reason != analysis.LongLeads && o.reason != analysis.JustBelow {
		s.addDistance(o, w)
	}
}

// addFeeder writes what the feeder to a protector just below adds.
func (s *solver) addFeeder(c *cover, w *analysis.Working) {
	step := analysis.Step{Label: "feeder to the protector", Text: "no length", Unit: "V", Source: fromSheet}
	if c.run > 0 {
		step = analysis.Step{Label: step.Label, Formula: "k l", Numbers: metreNumbers(c), Result: c.lead(), Unit: "V", Source: feederAsLead}
	}
	w.Add(step)
	w.Add(analysis.Step{
		Label: "at " + nameOf(s.places[c.from].part), Formula: "E + Uf", Result: c.volts, Unit: "V",
		Numbers: analysis.FigureIn(c.atHost, "V") + " + " + analysis.FigureIn(c.lead(), "V"),
	})
	w.Add(analysis.Step{
		Label: "reach", Text: farText(c, c.run) + ", less than the limit of " + farText(c, s.farOf(c)) + ": it counts", Source: farSource(c.first.protector),
	})
}

// metreNumbers writes what a feeder adds in the units of the protector's rating.
func metreNumbers(c *cover) string {
	if c.first.protector.Rating == diagram.Up {
		return analysis.FigureIn(c.lead()/c.run, "V/m") + " × " + analysis.FigureIn(c.run, "m")
	}
	return analysis.FigureIn(c.lead()/c.run*lead.Inch, "V/in") + " × " + lead.Inches(c.run)
}

// addDistance writes what the wiring adds between the place of a cover and another.
func (s *solver) addDistance(o *outcome, w *analysis.Working) {
	w.Add(analysis.Step{Label: "length of feeders from " + nameOf(s.places[o.cover.from].part), Result: o.distance, Unit: "m", Source: fromSheet})
	s.rule.at(o.cover, o.distance, w)
	if o.reason == analysis.Distance {
		w.Add(analysis.Step{
			Label: "far", Text: farText(o.cover, o.distance) + " is not less than " + farText(o.cover, o.cover.far) + ": add a protector near the equipment; so far away the figure is doubtful",
			Source: farSource(o.cover.first.protector),
		})
	}
}

// farText writes a distance in the units of the rule for the protector.
func farText(c *cover, far float64) string {
	if c.first.protector.Rating == diagram.Up {
		return analysis.LengthIn(far, unit.IEC)
	}
	return analysis.LengthIn(far, unit.NorthAmerican)
}

func farSource(p *diagram.Protector) string {
	if p.Rating == diagram.Up {
		return "10 m by default; " + analysis.ProtectedLength
	}
	return "30 ft by default; common practice, no source"
}
