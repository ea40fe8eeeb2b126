package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const (
	// leastBreaker is the breaker that government criteria ask for at panels, A, and
	// trippedBreaker the surge above which one of that rating was seen to trip, A.
	leastBreaker   = 30
	trippedBreaker = 25e3
	breakerTests   = "UFC 3-520-01 (2002) 11-3: a 30 A breaker tripped above about 25 kA 8/20, one of 60 A stood about 65 kA"
)

// breakerRules look at the overcurrent device of a protector: its poles, its
// rating, what else it feeds and whether it finds room.
func breakerRules() []record[*site] {
	toldOfPlace := []string{"place.line side", "place.unguarded", "place.other building"}
	return about(analysis.SubjectBreaker,
		tellsOne("breaker.poles few", (*site).polesTooFew, sayPolesTooFew),
		tellsOne("breaker.poles many", (*site).polesTooMany, sayPolesTooMany),
		tellsIf("breaker.above", (*site).breakerAbove, sayBreakerAbove),
		tellsIf("breaker.below", (*site).breakerBelow, sayBreakerBelow).unless("breaker.above"),
		tellsIf("breaker.small", (*site).breakerSmall, sayBreakerSmall).unless("breaker.above"),
		tellsIf("breaker.unknown", (*site).aheadUnknown, sayAheadUnknown).unless(toldOfPlace...),
		tellsIf("breaker.asked for", (*site).noneKnown, sayNoneKnown).unless(toldOfPlace...),
		tellsOne("breaker.ahead large", (*site).noneSmallEnough, sayNoneSmallEnough),
		tellsOne("breaker.ahead small", (*site).aheadTooSmall, sayAheadTooSmall),
		tellsOne("breaker.leads", (*site).breakerForLeads, sayBreakerForLeads),
		tellsIf("breaker.shared", (*site).breakerShared, sayBreakerShared),
		tellsOne("breaker.spaces", (*site).breakerSpaces, sayBreakerSpaces),
	)
}

// linesOf returns how many lines a protector on the place has: by what it is
// made for, or else those of the board; 0 where neither is known. A load may be
// connected to some of the lines only.
func (p *place) linesOf(protector diagram.Protector) int {
	if n := protector.System.Lines(); n > 0 || !p.part.Kind.IsBoard() {
		return n
	}
	return p.system.Lines()
}

// poles compares the poles of a breaker with the lines.
type poles struct {
	has   int
	lines int // that lead to the protector
	bus   int // that the bus has
}

// poles returns the poles, and whether they and the lines are known.
func (s *site) poles() (poles, bool) {
	p := poles{s.protector.Breaker.Poles, s.linesOf(s.protector), s.system.Lines()}
	if p.bus > 0 {
		p.lines = min(p.lines, p.bus)
	}
	return p, p.has > 0 && p.lines > 0
}

// polesTooFew leaves one less where a line is earthed: NFPA 70 section 240.22
// (from memory) asks for no overcurrent device in it.
func (s *site) polesTooFew() (poles, bool) {
	p, known := s.poles()
	return p, known && p.has < p.lines-earthedLines(s.system)
}

func sayPolesTooFew(s *site, p poles) said {
	return said{
		severity: analysis.Error,
		what:     fmt.Sprintf("The breaker of %s has %s, and %s lead to the protector", s.on(), unit.CountOf(p.has, "pole"), unit.CountOf(p.lines, "line")),
		why:      "a line without a pole is either not protected or cannot be switched off with the others",
		remedy:   fmt.Sprintf("use a breaker with %d poles", p.lines),
		source:   s.byRules(commonPractice, s.nfpaOn(everyLine)),
		mend:     s.altered(fmt.Sprintf("set the breaker of … to %d poles", p.lines), func(now *diagram.Protector) { now.Breaker.Poles = p.lines }),
	}
}

// polesTooMany leaves one more for the neutral, where that is switched.
func (s *site) polesTooMany() (poles, bool) {
	p, known := s.poles()
	return p, known && p.bus > 0 && p.has > p.bus+neutralPole(s.system)
}

func sayPolesTooMany(s *site, p poles) said {
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("The breaker of %s has %s, and the bus has %s", s.on(), unit.CountOf(p.has, "pole"), unit.CountOf(p.bus, "line")),
		why:      "there is no line for the other poles",
		remedy:   "correct whichever of the two is wrong",
	}
}

func earthedLines(system diagram.System) int {
	if system.Earthing == diagram.Corner {
		return 1
	}
	return 0
}

func neutralPole(system diagram.System) int {
	if system.Neutral {
		return 1
	}
	return 0
}

// breakerAbove finds a breaker above what the protector asks for at most.
func (s *site) breakerAbove() bool {
	b := s.protector.Breaker
	return b.Most > 0 && b.Rated > b.Most
}

func sayBreakerAbove(s *site) said {
	return s.sayBreakerOff(analysis.Error, s.protector.Breaker.Most, "at most", "a fault inside the protector may not be cleared before it bursts")
}

// breakerBelow finds a breaker below what it asks for at least.
func (s *site) breakerBelow() bool {
	b := s.protector.Breaker
	return b.Rated > 0 && b.Rated < b.Least
}

func sayBreakerBelow(s *site) said {
	return s.sayBreakerOff(analysis.Warning, s.protector.Breaker.Least, "at least", "a surge that the protector can take trips the breaker, and the next surge meets no protector")
}

// sayBreakerOff sets the breaker to the bound, unless that is too much for the
// leads.
func (s *site) sayBreakerOff(severity analysis.Severity, bound float64, word, why string) said {
	rated := s.protector.Breaker.Rated
	out := said{
		severity: severity,
		who:      s.on(),
		what:     fmt.Sprintf("is on a breaker of %s and asks for %s %s", amperes(rated), word, amperes(bound)),
		why:      why,
		remedy:   "use a breaker of " + amperes(bound),
		source:   instructions,
		working: analysis.Working{
			{Label: "breaker of " + s.name(), Result: rated, Unit: "A", Source: fromSheet},
			{Label: word, Result: bound, Unit: "A", Source: instructions},
		},
	}
	if _, tooMuch := s.leadsAllow(bound); !tooMuch {
		out.mend = s.altered("set the breaker of … to "+amperes(bound), func(p *diagram.Protector) { p.Breaker.Rated = bound })
	}
	return out
}

// breakerSmall finds a smaller breaker than is usual where the protector asks for
// none.
func (s *site) breakerSmall() bool {
	b := s.protector.Breaker
	asked := !s.iec && s.part.Kind.IsBoard() && s.protector.Type != diagram.Type3
	return asked && b.Least <= 0 && b.Rated > 0 && b.Rated < leastBreaker
}

func sayBreakerSmall(s *site) said {
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     fmt.Sprintf("is on a breaker of %s, and at least %s is usual", amperes(s.protector.Breaker.Rated), amperes(leastBreaker)),
		why:      fmt.Sprintf("a small breaker trips on a surge that the protector can take: one of %s above about %s", amperes(leastBreaker), kiloamperes(trippedBreaker)),
		remedy:   "see what its instructions ask for and type it in",
		source:   breakerTests,
	}
}

// breakerShared finds a breaker that feeds something else too. On a branch
// circuit, where types and classes III belong, that is as it should be.
func (s *site) breakerShared() bool {
	return s.protector.Breaker.Shared && !s.pointOfUse() && s.part.Kind.IsBoard()
}

func sayBreakerShared(s *site) said {
	return said{
		severity: analysis.Warning,
		what:     "The breaker of " + s.on() + " is shared with other loads",
		why:      "when a load trips it, the protector is off unnoticed; and a protector that fails takes the loads down with it",
		remedy:   "give it a breaker of its own",
		source:   commonPractice,
	}
}
