package handrule

import (
	"fmt"

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
		if !p.part.Kind.IsJudged() || len(buses) > 0 && !wanted[p.part.ID] {
			continue
		}
		levels := s.appendLevels(nil, i)
		for n := range levels {
			levels[n].Working = s.working(i, levels[n])
		}
		out[p.part.ID] = analysis.BusResult{ID: p.part.ID, System: p.node.System, Levels: levels}
	}
	return out
}

const (
	fromSheet     = "from the sheet"
	noSource      = "common practice, no source"
	distanceRule  = "protective-distance rule; Chakrabarti, Soni, Gupta, Bhatnagar, A Textbook on Power System Engineering, examples 2.15.1 and 2.15.2"
	feederAsLead  = "what leads add, in the ratio of the inductances of a loop: 0.7 µH/m of conductors that run together (NFPA 70 chapter 9 table 9, reactance), 2 µH/m of leads apart (common practice); derived"
	kirchhoff     = "Kirchhoff's voltage law"
	heldByVerdict = "at most 80 % is Held, after IEC 62305-4:2010 annex C, from memory"
)

// working says how a level came about.
func (s *solver) working(i int, level analysis.Level) analysis.Working {
	p := &s.places[i]
	if level.Reason == analysis.NoSystem && !p.node.System.Known() {
		return analysis.Working{{Label: "system", Text: level.Why}}
	}
	var out analysis.Working
	switch o := s.outcome(i, level.Mode); {
	case o.known:
		out = s.coverSteps(&o)
	default:
		out = analysis.Working{{Label: "cover", Text: level.Why}}
	}
	volts, step, known := Withstand(p.part.Withstand, p.node.System, level.Mode)
	out = append(out, step)
	if known && level.Known {
		out = append(out, analysis.Step{
			Label: "share of the withstand", Formula: "E / Uw", Numbers: analysis.FigureIn(level.Volts, "V") + " / " + analysis.FigureIn(volts, "V"),
			Result: 100 * level.Volts / volts, Unit: "%", Source: heldByVerdict,
		})
	}
	return out
}

// coverSteps says how a known voltage came about.
func (s *solver) coverSteps(o *outcome) analysis.Working {
	if o.cover == nil {
		return analysis.Working{{Label: "bond", Text: "neutral and earth are joined here: there is no voltage between them", Unit: "V", Source: fromSheet}}
	}
	c := o.cover
	if c.isBond() {
		at := nameOf(s.places[c.host].part)
		out := analysis.Working{{Label: "bond", Text: "neutral and earth are joined at " + at + ": there is no voltage between them there", Source: fromSheet}}
		return append(out, s.distanceSteps(o)...)
	}
	out := append(s.sumSteps(c, o.mode), s.feederSteps(c)...)
	if c.bond || o.instead {
		out = append(out, analysis.Step{
			Label: "bond", Text: "neutral and earth are joined at the bus, so that L-N and L-G are the same there", Source: kirchhoff,
		})
	}
	return append(out, s.distanceSteps(o)...)
}

// feederSteps say what the feeder to a protector just below adds.
func (s *solver) feederSteps(c *cover) analysis.Working {
	if !c.below() {
		return nil
	}
	out := analysis.Working{{Label: "feeder to the protector", Text: "no length", Unit: "V", Source: fromSheet}}
	if c.run > 0 {
		out[0] = analysis.Step{
			Label: "feeder to the protector", Formula: "k l", Numbers: metreNumbers(c), Result: c.lead(), Unit: "V", Source: feederAsLead,
		}
	}
	return append(out, analysis.Step{
		Label: "at " + nameOf(s.places[c.from].part), Formula: "E + Uf", Result: c.volts, Unit: "V",
		Numbers: analysis.FigureIn(c.atHost, "V") + " + " + analysis.FigureIn(c.lead(), "V"),
	}, analysis.Step{
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

// sumSteps says what one rating gives at its bus, or two in series.
func (s *solver) sumSteps(c *cover, mode diagram.Mode) analysis.Working {
	out := analysis.Working{ratingStep(c.first)}
	switch p := c.first.protector; {
	case c.second.protector == nil:
		s.rule.leadVolts(p, c.first.mode, &out)
		out = append(out, leadRemarks(p)...)
		return append(out, atBusStep(c))
	case c.second.protector == p:
		if c.second != c.first {
			out = append(out, ratingStep(c.second))
		}
		s.rule.leadVolts(p, mode, &out)
		out = append(out, leadRemarks(p)...)
	default:
		s.rule.leadVolts(p, c.first.mode, &out)
		out = append(append(out, leadRemarks(p)...), ratingStep(c.second))
		s.rule.leadVolts(c.second.protector, c.second.mode, &out)
		out = append(out, leadRemarks(c.second.protector)...)
	}
	return append(out, seriesStep(c))
}

// seriesStep says what two ratings in series come to, with their leads.
func seriesStep(c *cover) analysis.Step {
	leads := analysis.FigureIn(c.added, "V")
	step := analysis.Step{
		Label: "in series", Formula: "E1 + E2 + Ul", Result: c.atHost, Unit: "V", Source: kirchhoff,
		Numbers: analysis.FigureIn(c.first.stated(), "V") + " + " + analysis.FigureIn(c.second.stated(), "V") + " + " + leads,
	}
	gap, other := c.first, c.second
	if !gap.isGap() {
		gap, other = other, gap
	}
	if gap.isGap() && !other.isGap() {
		step.Label, step.Formula = "in series with a gap", "max(Eg, E + Ua) + Ul"
		step.Numbers = fmt.Sprintf("max(%s, %s + %s) + %s", analysis.FigureIn(gap.stated(), "V"), analysis.FigureIn(other.stated(), "V"),
			analysis.FigureIn(arcVolts, "V"), leads)
		step.Source = "the gap holds all until it fires, and its arc then 10 to 25 V: ITU-T K.12, from memory"
	}
	return step
}

// ratingStep tells a figure of a nameplate.
func ratingStep(r rating) analysis.Step {
	return analysis.Step{
		Label: levelName(r.protector) + " of " + nameOr(r.protector.Name, r.protector.ID) + ", " + r.mode.String(), Result: r.stated(), Unit: "V", Source: fromSheet,
	}
}

func levelName(p *diagram.Protector) string {
	if p.Rating == diagram.Up {
		return "Up"
	}
	return "VPR"
}

// atBusStep says what one rating comes to with its leads.
func atBusStep(c *cover) analysis.Step {
	return analysis.Step{
		Label: "at its bus", Formula: levelName(c.first.protector) + " + Ul", Result: c.atHost, Unit: "V",
		Numbers: analysis.FigureIn(c.first.stated(), "V") + " + " + analysis.FigureIn(c.added, "V"),
	}
}

// leadRemarks says what of the leads the rule does not count.
func leadRemarks(p *diagram.Protector) analysis.Working {
	var out analysis.Working
	if lead.Together(p) {
		out = append(out, analysis.Step{
			Label: "run of the leads", Text: "they are " + string(p.Leads.Run) + ": run together they add less, which the hand rule does not count; the transient shows how much",
			Source: noSource,
		})
	}
	if p.Leads.Bends > 0 || p.Leads.Coils > 0 {
		out = append(out, analysis.Step{
			Label: "bends and coils", Text: fmt.Sprintf("%d sharp bends and %d turns of slack add more, which the hand rule does not count", p.Leads.Bends, p.Leads.Coils),
			Source: noSource,
		})
	}
	return out
}

// distanceSteps says what the wiring adds between the bus of the protector and
// another.
func (s *solver) distanceSteps(o *outcome) analysis.Working {
	if o.reason == analysis.AtProtector || o.reason == analysis.LongLeads || o.reason == analysis.JustBelow {
		return nil
	}
	const micro = 1e6
	r, ea := s.rule, o.cover.volts
	out := analysis.Working{
		{Label: "length of feeders from " + nameOf(s.places[o.cover.from].part), Result: o.distance, Unit: "m", Source: fromSheet},
		{
			Label: "steepness of the surge", Formula: "S = U / T", Numbers: analysis.FigureIn(r.SurgeVoltage, "V") + " / " + analysis.FigureIn(r.Front*micro, "µs"),
			Result: r.steepness() / micro, Unit: "V/µs", Source: "IEEE C62.41.2-2002, combination wave, from memory",
		},
		{
			Label: "voltage at that distance", Formula: "E = min(Ea + 2 S d / v, 2 Ea)",
			Numbers: fmt.Sprintf("min(%s + 2 × %s × %s / %s, 2 × %s)", analysis.FigureIn(ea, "V"), analysis.FigureIn(r.steepness()/micro, "V/µs"),
				analysis.FigureIn(o.distance, "m"), analysis.FigureIn(r.Speed/micro, "m/µs"), analysis.FigureIn(ea, "V")),
			Result: o.volts, Unit: "V", Source: distanceRule,
		},
	}
	if o.cover.isBond() {
		last := &out[len(out)-1]
		last.Formula, last.Source = "E = min(2 S d / v, Em)", distanceRule+"; Em is what arrives, or the most that a line has to earth (derived)"
		last.Numbers = fmt.Sprintf("min(2 × %s × %s / %s, %s)", analysis.FigureIn(r.steepness()/micro, "V/µs"),
			analysis.FigureIn(o.distance, "m"), analysis.FigureIn(r.Speed/micro, "m/µs"), analysis.FigureIn(o.cover.limit, "V"))
	}
	if o.reason == analysis.Distance {
		out = append(out, analysis.Step{
			Label: "far", Text: farText(o.cover, o.distance) + " is not less than " + farText(o.cover, o.cover.far) + ": add a protector near the equipment; so far away the figure is doubtful",
			Source: farSource(o.cover.first.protector),
		})
	}
	return out
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
