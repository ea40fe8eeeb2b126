package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// phaseRules look at the lines and the neutral: those of the bus that the
// protector lacks, those of the protector that the bus lacks, and the line of a
// high-leg delta that stands above the others.
func phaseRules() []record[*site] {
	const line, circuit = "phases.line missing", "phases.one circuit"
	return about(analysis.SubjectPhases,
		tellsOne(line, (*site).lineMissing, sayLineMissing),
		tellsOne(circuit, (*site).oneCircuit, sayOneCircuit),
		tellsIf("phases.neutral missing", (*site).lacksNeutral, sayNeutralMissing).unless(line, circuit),
		tellsAll("phases.neutral idle", (*site).neutralIdle, sayNeutralIdle).unless(line, circuit),
		tellsOne("phases.line spare", (*site).lineSpare, sayLineSpare).unless(line, circuit),
		tellsAll("phases.high leg", (*site).highLegBurns, sayHighLegBurns).unless(line, circuit),
		tellsAll("phases.high leg load", (*site).highLegOfLoad, sayHighLegOfLoad).unless(line, circuit),
		tellsAll("phases.high leg rating", (*site).highLegRating, sayHighLegRating).unless(line, circuit),
	)
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

// linesLeft are the lines that a protector leaves out.
type linesLeft struct {
	own, there int
	fewLead    bool              // as it seems, no more lead there than the protector has
	shared     bool              // other protectors there may take those left out
	complete   diagram.Protector // another one there that has them all; none has no id
}

// linesLeft returns the lines left out, and whether any are.
func (s *site) linesLeft() (linesLeft, bool) {
	own, there := s.protector.System.Lines(), s.lines()
	if own <= 0 || own >= there {
		return linesLeft{}, false
	}
	return linesLeft{own, there, s.fewerLines(own), s.othersHaveLines(there - own), s.complete()}, true
}

func (s *site) lineMissing() (linesLeft, bool) {
	l, lacks := s.linesLeft()
	return l, lacks && l.complete.ID == ""
}

// sayLineMissing is certain where nothing says that the line is not there, or
// that another one takes it.
func sayLineMissing(s *site, l linesLeft) said {
	out := s.fewLines(l)
	out.source, out.mend = s.byRules(connectionTypes, s.nfpaOn(everyLine)), replaceIt
	if l.fewLead {
		out.mend = analysis.Mend{}
	}
	switch oneForEach := fmt.Sprintf("use one with a terminal for each of the %d lines", l.there); {
	case l.shared:
		out.severity = analysis.Warning
		out.why = "what is fed from a line that is left out has no protection, unless another protector here takes that line"
		out.remedy = oneForEach + ": which line a protector is on is not drawn, so that this one is left out of account"
	case l.fewLead:
		out.severity = analysis.Warning
		out.why = "the breaker ahead of it has as many poles as the protector lines: so it seems that no more lines lead there"
		out.remedy = fmt.Sprintf("state at %s which lines lead to it; where all %d do, use one with a terminal for each", s.place.name(), l.there)
	default:
		out.severity = analysis.Error
		out.why = "what is fed from the line that is left out has no protection"
		out.remedy = oneForEach
	}
	return out
}

// oneCircuit finds a protector that adds to one that has all the lines.
func (s *site) oneCircuit() (linesLeft, bool) {
	l, lacks := s.linesLeft()
	return l, lacks && l.complete.ID != ""
}

func sayOneCircuit(s *site, l linesLeft) said {
	out := s.fewLines(l)
	out.severity = analysis.Remark
	out.why = s.beside(l.complete).name() + " there has all the lines; this one adds to it on its own line only, which is not drawn, so that it is left out of account"
	out.remedy = "nothing need change where it is meant for one circuit; else leave it out"
	out.source = commonPractice
	return out
}

func (s *site) fewLines(l linesLeft) said {
	return said{who: s.on(), what: fmt.Sprintf("is made for %s, and the bus has %d", unit.CountOf(l.own, "line"), l.there)}
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

// complete returns another protector here that is made for this voltage and has
// all the lines, or none.
func (s *site) complete() diagram.Protector {
	for _, p := range s.protectors {
		other := s.beside(p)
		if p.ID != s.protector.ID && p.System.Lines() >= s.lines() && len(other.modes()) > 0 && !other.misplaced() {
			return p
		}
	}
	return diagram.Protector{}
}

// beside returns another protector on the place, as its nameplate has it.
func (s *site) beside(p diagram.Protector) *site { return &site{place: s.place, protector: p} }

// othersHaveLines reports whether the other protectors here that lack a line
// have so many between them.
func (s *site) othersHaveLines(wanted int) bool {
	for _, p := range s.protectors {
		if own := p.System.Lines(); p.ID != s.protector.ID && own > 0 && own < s.lines() {
			wanted -= own
		}
	}
	return wanted <= 0
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

func sayNeutralMissing(s *site) said {
	without := "without a neutral, and the bus has one"
	if s.protector.System.Neutral {
		without = "with neutral and earth in one, and the bus has them apart"
	}
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "is made for " + s.protector.System.String() + ", " + without,
		why:      "what is fed between a line and the neutral is not protected by it in L-N, nor in N-G",
		remedy:   "use one made for " + s.system.String(),
		source:   s.byRules(connectionTypes, commonPractice),
		mend:     replaceIt,
	}
}

// neutralIdle finds modes to a neutral that the bus does not have.
func (s *site) neutralIdle() []diagram.Mode {
	var out []diagram.Mode
	for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.NeutralEarth} {
		if s.connects(mode) && !s.system.Neutral {
			out = append(out, mode)
		}
	}
	return out
}

func sayNeutralIdle(s *site, modes []diagram.Mode) said {
	severity, why := analysis.Warning, "its elements to the neutral lead nowhere, and the level measured between lines and earth may not hold without them"
	if len(s.modes()) == 0 {
		severity, why = analysis.Error, "it has nothing between the conductors that are there, so it protects nothing"
	}
	return said{
		severity: severity,
		who:      s.on(),
		what:     "has " + listed(modes) + ", and the bus has no neutral to connect to",
		why:      why,
		remedy:   "use one made for " + s.system.String(),
		source:   commonPractice,
		mend:     replaceIt,
	}
}

func (s *site) lineSpare() (spare int, found bool) {
	spare = s.protector.System.Lines() - s.lines()
	return spare, s.lines() > 0 && spare > 0
}

func sayLineSpare(s *site, spare int) said {
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     fmt.Sprintf("is made for %s, and %s", unit.CountOf(s.protector.System.Lines(), "line"), lineUse(s.lines(), spare)),
		why:      "the lines that are there are protected; the maker says what becomes of a terminal that is not used",
		remedy:   "see its instructions; one made for " + s.system.String() + " does as well",
		source:   commonPractice,
		mend:     replaceIt,
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
