package rule

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/diagram"
)

// onlyOrdinaryLines reports whether the protector bears, in a mode of a
// high-leg delta, what the two ordinary lines have to neutral and earth, but not
// what the third has.
func (s *site) onlyOrdinaryLines(mode diagram.Mode) bool {
	if s.system.Wiring != diagram.HighLeg || mode != diagram.LineNeutral && mode != diagram.LineEarth || s.onlyIfHeld(mode) {
		return false
	}
	volts, _ := bears(s.protector, mode)
	return s.connects(mode) && s.below(mode) && volts >= s.system.LineToNeutral()
}

// highLegIf returns the modes that do not stand the high line, where something
// holds.
func (s *site) highLegIf(holds bool) []diagram.Mode {
	if !holds {
		return nil
	}
	return s.modesWhere(s.onlyOrdinaryLines)
}

// highLegBurns finds modes across which the high line is as certain as their
// ratings.
func (s *site) highLegBurns() []diagram.Mode { return s.highLegIf(!s.statesTwo() && !s.lineNotKnown()) }

func sayHighLegBurns(s *site, modes []diagram.Mode) said {
	out, high := s.lowForHighLeg(modes)
	out.severity, out.mend = analysis.Error, replaceIt
	out.why = fmt.Sprintf("line B has %s to the neutral, the others %s: it conducts all the time, overheats and can burn", high, volts(s.system.LineToNeutral()))
	out.remedy = "keep it switched off until one made for " + s.system.String() + ", with at least " + high + " on line B, is in its place"
	return out
}

// highLegOfLoad finds modes at a load that may not be on the high line.
func (s *site) highLegOfLoad() []diagram.Mode { return s.highLegIf(!s.statesTwo() && s.lineNotKnown()) }

func sayHighLegOfLoad(s *site, modes []diagram.Mode) said {
	out, high := s.lowForHighLeg(modes)
	out.severity = analysis.Warning
	out.why = fmt.Sprintf("line B has %s to the neutral, the others %s; on which lines the load is, the sheet does not say", high, volts(s.system.LineToNeutral()))
	out.remedy = "see that it is not on line B; else keep it switched off until one with at least " + high + " is in its place"
	return out
}

// highLegRating finds modes whose rating may be that for the ordinary lines.
func (s *site) highLegRating() []diagram.Mode { return s.highLegIf(s.statesTwo()) }

func sayHighLegRating(s *site, modes []diagram.Mode) said {
	out, high := s.lowForHighLeg(modes)
	out.severity = analysis.Warning
	out.why = "line B has " + high + " to the neutral; a nameplate states two ratings, and only that of line B tells whether it is enough"
	out.remedy = "state here what the nameplate gives for line B; where that is less than " + high + ", keep it switched off and replace it"
	return out
}

// lowForHighLeg is what is said of every mode that does not stand the high line,
// and its voltage in words.
func (s *site) lowForHighLeg(modes []diagram.Mode) (out said, high string) {
	return said{
		who:    s.on() + ":",
		what:   s.rating() + " too low for line B of the high-leg delta in " + listed(modes),
		source: s.markingSource(),
		working: append(s.bearing(modes), analysis.Step{
			Label: "line B to the neutral", Formula: "√3/2 U", Numbers: "√3/2 × " + volts(s.system.Voltage),
			Result: s.system.HighestToNeutral(), Unit: "V", Source: "geometry of the triangle with a centre tap on one side",
		}),
	}, volts(math.Round(s.system.HighestToNeutral()))
}

// statesTwo reports whether the protector is made for a high-leg delta: its
// nameplate states two ratings.
func (s *site) statesTwo() bool { return s.protector.System.Wiring == diagram.HighLeg }

// lineNotKnown reports whether the place is a load that may be on the ordinary
// lines of a high-leg delta alone.
func (s *site) lineNotKnown() bool {
	if s.part.Kind != diagram.Load {
		return false
	}
	switch s.part.Load.Connection {
	case diagram.ThreeWire, diagram.ThreeWireStar:
		return false
	case diagram.ToNeutral:
		return !sameAs(s.part.Load.Voltage, s.system.HighestToNeutral())
	}
	return true
}
