package rule

import (
	"fmt"
	"math"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// phaseRules look at the lines and the neutral: those of the bus that the
// protector lacks, those of the protector that the bus lacks, and the line of a
// high-leg delta that stands above the others.
func phaseRules(s *site) []analysis.Finding {
	if !s.system.Known() || s.misplaced() {
		return nil
	}
	var out []analysis.Finding
	if s.lacksLine() {
		return append(out, s.missingLine())
	}
	if s.lacksNeutral() {
		out = append(out, s.missingNeutral())
	}
	if modes := s.idleNeutralModes(); len(modes) > 0 {
		out = append(out, s.idleNeutral(modes))
	}
	if spare := s.protector.System.Lines() - s.lines(); s.lines() > 0 && spare > 0 {
		out = append(out, s.spareLine(spare))
	}
	return append(out, s.highLeg()...)
}

// lines returns how many lines there are to protect: those of the bus, or those
// that a load is connected to.
func (s *site) lines() int { return analysis.LinesOf(s.part, s.system) }

// neutral reports whether there is a neutral to protect.
func (s *site) neutral() bool {
	switch s.connectedTo() {
	case diagram.BetweenLines, diagram.ThreeWire:
		return false
	}
	return s.system.Neutral && s.system.Earthing != diagram.TNC // a PEN conductor counts as earth
}

// connectedTo returns how a load is connected, or nothing for a bus.
func (s *site) connectedTo() diagram.Connection {
	if s.part.Kind != diagram.Load {
		return ""
	}
	return s.part.Load.Connection
}

// lacksLine reports whether the protector has fewer lines than there are to
// protect.
func (s *site) lacksLine() bool {
	own := s.protector.System.Lines()
	return own > 0 && own < s.lines()
}

func (s *site) missingLine() analysis.Finding {
	own, there := s.protector.System.Lines(), s.lines()
	f := analysis.Finding{
		Severity: analysis.Error, Subject: analysis.SubjectPhases,
		What:   fmt.Sprintf("%s is made for %s, and the bus has %d", s.on(), lineCount(own), there),
		Why:    "what is fed from the line that is left out has no protection",
		Remedy: fmt.Sprintf("use one with a terminal for each of the %d lines", there),
		Source: connectionTypes,
		Mend:   replaceIt,
	}
	if !s.iec {
		f.Source = s.nfpaOn(everyLine)
	}
	if s.fewerLines(own) {
		f.Severity, f.Mend = analysis.Warning, analysis.Mend{}
		f.Why = "the breaker ahead of it has as many poles as the protector lines: so it seems that no more lines lead there"
		f.Remedy = fmt.Sprintf("state at %s which lines lead to it; where all %d do, use one with a terminal for each", s.place.name(), there)
	}
	if other := s.complete(); other != "" {
		f.Severity = analysis.Remark
		f.Why = other + " there has all the lines; this one adds to it on its own line only, which is not drawn, so that it is left out of account"
		f.Remedy = "nothing need change where it is meant for one circuit; else leave it out"
		f.Source, f.Mend = commonPractice, analysis.Mend{}
		return f
	}
	if s.othersHaveLines(there - own) {
		f.Severity = analysis.Warning
		f.Why = "what is fed from a line that is left out has no protection, unless another protector here takes that line"
		f.Remedy = fmt.Sprintf("use one with a terminal for each of the %d lines: which line a protector is on is not drawn, so that this one is left out of account", there)
	}
	return f
}

// fewerLines reports whether a board or junction that does not state its system
// is fed through a switch with as many poles as the protector has lines.
func (s *site) fewerLines(own int) bool {
	if s.node == nil || s.part.System.Known() || !s.part.Kind.IsBoard() && s.part.Kind != diagram.Junction {
		return false
	}
	feeder, ok := s.Document.Feeder(s.node.Feeder)
	return ok && feeder.Switch.Poles == own
}

// complete returns the name of another protector here that is made for this
// voltage and has all the lines, or nothing.
func (s *site) complete() string {
	for _, p := range s.protectors {
		other := site{place: s.place, protector: p}
		if p.ID != s.protector.ID && p.System.Lines() >= s.lines() && len(other.modes()) > 0 && !other.misplaced() {
			return other.name()
		}
	}
	return ""
}

// othersHaveLines reports whether the other protectors here that lack a line
// have so many between them.
func (s *site) othersHaveLines(wanted int) bool {
	for _, p := range s.protectors {
		other := site{place: s.place, protector: p}
		if p.ID != s.protector.ID && other.lacksLine() {
			wanted -= p.System.Lines()
		}
	}
	return wanted <= 0
}

func lineCount(n int) string {
	if n == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", n)
}

// lacksNeutral reports whether the protector is made for a system without the
// neutral that is there, apart from earth.
func (s *site) lacksNeutral() bool {
	own := s.protector.System
	if own.Earthing == diagram.TNC && s.bonded() {
		return false
	}
	return own.Known() && s.neutral() && (!own.Neutral || own.Earthing == diagram.TNC)
}

func (s *site) missingNeutral() analysis.Finding {
	without := "without a neutral, and the bus has one"
	if s.protector.System.Neutral {
		without = "with neutral and earth in one, and the bus has them apart"
	}
	f := analysis.Finding{
		Severity: analysis.Warning, Subject: analysis.SubjectPhases,
		What:   fmt.Sprintf("%s is made for %s, %s", s.on(), s.protector.System, without),
		Why:    "what is fed between a line and the neutral is not protected by it in L-N, nor in N-G",
		Remedy: "use one made for " + s.system.String(),
		Source: commonPractice,
		Mend:   replaceIt,
	}
	if s.iec {
		f.Source = connectionTypes
	}
	return f
}

// idleNeutralModes returns the modes to a neutral that the bus does not have.
func (s *site) idleNeutralModes() []diagram.Mode {
	if s.system.Neutral {
		return nil
	}
	var out []diagram.Mode
	for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.NeutralEarth} {
		if s.connects(mode) {
			out = append(out, mode)
		}
	}
	return out
}

func (s *site) idleNeutral(modes []diagram.Mode) analysis.Finding {
	f := analysis.Finding{
		Severity: analysis.Warning, Subject: analysis.SubjectPhases,
		What:   fmt.Sprintf("%s has %s, and the bus has no neutral to connect to", s.on(), listed(modes)),
		Why:    "its elements to the neutral lead nowhere, and the level measured between lines and earth may not hold without them",
		Remedy: "use one made for " + s.system.String(),
		Source: commonPractice,
		Mend:   replaceIt,
	}
	if len(s.modes()) == 0 {
		f.Severity = analysis.Error
		f.Why = "it has nothing between the conductors that are there, so it protects nothing"
	}
	return f
}

func (s *site) spareLine(spare int) analysis.Finding {
	return analysis.Finding{
		Severity: analysis.Remark, Subject: analysis.SubjectPhases,
		What:   fmt.Sprintf("%s is made for %s, and %s", s.on(), lineCount(s.protector.System.Lines()), lineUse(s.lines(), spare)),
		Why:    "the lines that are there are protected; the maker says what becomes of a terminal that is not used",
		Remedy: "see its instructions; one made for " + s.system.String() + " does as well",
		Source: commonPractice,
		Mend:   replaceIt,
	}
}

// lineUse tells how many lines are there and how many of the protector's stay
// unused.
func lineUse(there, spare int) string {
	are, stay := "are", "stay"
	if there == 1 {
		are = "is"
	}
	if spare == 1 {
		stay = "stays"
	}
	return fmt.Sprintf("there %s %d: %d %s unused", are, there, spare, stay)
}

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

// highLeg is the finding on modes that do not stand the high line.
func (s *site) highLeg() []analysis.Finding {
	modes := slices.DeleteFunc(s.modes(), func(mode diagram.Mode) bool { return !s.onlyOrdinaryLines(mode) })
	if len(modes) == 0 {
		return nil
	}
	high := volts(math.Round(s.system.HighestToNeutral()))
	f := analysis.Finding{
		Severity: analysis.Error, Subject: analysis.SubjectPhases,
		What:   s.on() + ": " + s.rating() + " too low for line B of the high-leg delta in " + listed(modes),
		Why:    fmt.Sprintf("line B has %s to the neutral, the others %s: it conducts all the time, overheats and can burn", high, volts(s.system.LineToNeutral())),
		Remedy: "keep it switched off until one made for " + s.system.String() + ", with at least " + high + " on line B, is in its place",
		Source: s.markingSource(),
		Working: append(s.bearing(modes), analysis.Step{
			Label: "line B to the neutral", Formula: "√3/2 U", Numbers: "√3/2 × " + volts(s.system.Voltage),
			Result: s.system.HighestToNeutral(), Unit: "V", Source: "geometry of the triangle with a centre tap on one side",
		}),
		Mend: replaceIt,
	}
	if s.lineNotKnown() {
		f.Severity = analysis.Warning
		f.Why = fmt.Sprintf("line B has %s to the neutral, the others %s; on which lines the load is, the sheet does not say", high, volts(s.system.LineToNeutral()))
		f.Remedy = "see that it is not on line B; else keep it switched off until one with at least " + high + " is in its place"
		f.Mend = analysis.Mend{}
	}
	if s.protector.System.Wiring == diagram.HighLeg {
		f.Severity, f.Mend = analysis.Warning, analysis.Mend{}
		f.Why = fmt.Sprintf("line B has %s to the neutral; a nameplate states two ratings, and only that of line B tells whether it is enough", high)
		f.Remedy = "state here what the nameplate gives for line B; where that is less than " + high + ", keep it switched off and replace it"
	}
	return []analysis.Finding{f}
}

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
