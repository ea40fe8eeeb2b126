package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
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
func breakerRules(s *site) []analysis.Finding {
	out := append(s.breakerPoles(), s.breakerRating()...)
	out = append(out, s.breakerForLeads()...)
	out = append(out, s.breakerShared()...)
	return append(out, s.breakerSpaces()...)
}

// breakerFinding is a finding on the breaker.
func breakerFinding(severity analysis.Severity, what, why, remedy, source string) []analysis.Finding {
	return []analysis.Finding{{
		Severity: severity, Subject: analysis.SubjectBreaker, What: what, Why: why, Remedy: remedy, Source: source,
	}}
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

// breakerPoles compares the poles with the lines that lead to the protector. One
// more for the neutral is right where the neutral is switched, and one less where
// a line is earthed: NFPA 70 section 240.22 (from memory) asks for no overcurrent
// device in it.
func (s *site) breakerPoles() []analysis.Finding {
	poles, lines, bus := s.protector.Breaker.Poles, s.linesOf(s.protector), s.system.Lines()
	if bus > 0 {
		lines = min(lines, bus)
	}
	switch {
	case poles == 0 || lines == 0:
		return nil
	case poles < lines-earthedLines(s.system):
		return s.polesTooFew(poles, lines)
	case bus > 0 && poles > bus+neutralPole(s.system):
		return breakerFinding(analysis.Warning,
			fmt.Sprintf("The breaker of %s has %s, and the bus has %s", s.on(), countOf(poles, "pole"), countOf(bus, "line")),
			"there is no line for the other poles",
			"correct whichever of the two is wrong", "")
	}
	return nil
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

func (s *site) polesTooFew(poles, lines int) []analysis.Finding {
	source := commonPractice
	if !s.iec {
		source = s.nfpaOn(everyLine)
	}
	out := breakerFinding(analysis.Error,
		fmt.Sprintf("The breaker of %s has %s, and %s lead to the protector", s.on(), countOf(poles, "pole"), countOf(lines, "line")),
		"a line without a pole is either not protected or cannot be switched off with the others",
		fmt.Sprintf("use a breaker with %d poles", lines),
		source)
	out[0].Mend = analysis.MendProtector(s.protector.ID, fmt.Sprintf("set the breaker of … to %d poles", lines), s.name(),
		func(p *diagram.Protector) { p.Breaker.Poles = lines })
	return out
}

// countOf writes a number with its noun: "1 pole", "3 poles".
func countOf(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// breakerRating compares the rating with what the protector asks for, or else
// with common figures.
func (s *site) breakerRating() []analysis.Finding {
	b := s.protector.Breaker
	switch {
	case b.Rated <= 0:
		return s.breakerMissing()
	case b.Most > 0 && b.Rated > b.Most:
		return s.breakerOff(analysis.Error, b.Most, "at most", "a fault inside the protector may not be cleared before it bursts")
	case b.Least > 0 && b.Rated < b.Least:
		return s.breakerOff(analysis.Warning, b.Least, "at least", "a surge that the protector can take trips the breaker, and the next surge meets no protector")
	case b.Least <= 0 && b.Rated < leastBreaker && !s.iec && s.part.Kind.IsBoard() && s.protector.Type != diagram.Type3:
		return breakerFinding(analysis.Remark,
			fmt.Sprintf("%s is on a breaker of %s, and at least %s is usual", s.on(), amperes(b.Rated), amperes(leastBreaker)),
			fmt.Sprintf("a small breaker trips on a surge that the protector can take: one of %s above about %s", amperes(leastBreaker), kiloamperes(trippedBreaker)),
			"see what its instructions ask for and type it in",
			breakerTests)
	}
	return nil
}

// breakerOff reports a rating beyond a bound that the protector states.
func (s *site) breakerOff(severity analysis.Severity, bound float64, word, why string) []analysis.Finding {
	const source = "instructions of the protector, " + fromSheet
	rated := s.protector.Breaker.Rated
	out := breakerFinding(severity,
		fmt.Sprintf("%s is on a breaker of %s and asks for %s %s", s.on(), amperes(rated), word, amperes(bound)),
		why,
		"use a breaker of "+amperes(bound),
		source)
	out[0].Working = analysis.Working{
		{Label: "breaker of " + s.name(), Result: rated, Unit: "A", Source: fromSheet},
		{Label: word, Result: bound, Unit: "A", Source: source},
	}
	if !s.tooMuchForLeads(bound) {
		out[0].Mend = analysis.MendProtector(s.protector.ID, "set the breaker of … to "+amperes(bound), s.name(),
			func(p *diagram.Protector) { p.Breaker.Rated = bound })
	}
	return out
}

// breakerMissing reports a protector that asks for an overcurrent device of a
// bound size, states none of its own, and has none as small ahead.
func (s *site) breakerMissing() []analysis.Finding {
	most := s.protector.Breaker.Most
	if most <= 0 {
		return s.aheadUnknown()
	}
	severity, ahead := analysis.Remark, "and what stands ahead of it is not known"
	if name, rated := s.smallestAhead(); rated > 0 {
		if rated <= most {
			return nil
		}
		severity, ahead = analysis.Warning, fmt.Sprintf("and the device ahead of it, that of %s, is %s", name, amperes(rated))
	}
	if severity == analysis.Remark && s.typeTells() {
		return nil
	}
	return breakerFinding(severity,
		fmt.Sprintf("%s asks for an overcurrent device of at most %s: none of its own is stated, %s", s.on(), amperes(most), ahead),
		"a fault inside the protector may not be cleared before it bursts",
		"state its breaker, or give it one of "+amperes(most)+" or less",
		"instructions of the protector, "+fromSheet)
}

// typeTells reports whether the rule on the type of the protector tells that no
// overcurrent device is known ahead of it.
func (s *site) typeTells() bool {
	return !s.iec && (s.protector.Type == diagram.Type2 || s.protector.Type == diagram.Type3) && len(s.typePlace()) > 0
}

// smallestAhead returns the overcurrent device of the lowest known rating on
// the way, and 0 where none is known.
func (s *site) smallestAhead() (name string, rated float64) {
	for _, d := range s.devices() {
		if d.rated > 0 && (rated == 0 || d.rated < rated) {
			name, rated = d.name, d.rated
		}
	}
	return name, rated
}

// breakerShared reports a breaker that feeds something else too. On a branch
// circuit, where types and classes III belong, that is as it should be.
func (s *site) breakerShared() []analysis.Finding {
	pointOfUse := s.protector.Type == diagram.Type3 || s.protector.Type == diagram.ClassIII
	if !s.protector.Breaker.Shared || pointOfUse || !s.part.Kind.IsBoard() {
		return nil
	}
	return breakerFinding(analysis.Warning,
		fmt.Sprintf("The breaker of %s is shared with other loads", s.on()),
		"when a load trips it, the protector is off unnoticed; and a protector that fails takes the loads down with it",
		"give it a breaker of its own",
		commonPractice)
}

// breakerSpaces compares the spaces that the protectors of the plan need with
// those that are free on the board. The free ones are counted with the
// protectors of the first plan, the building as found, in their places: on the
// first plan nothing is missing, and on another only what it needs beyond. The
// finding stands at the protector that finds no room first.
func (s *site) breakerSpaces() []analysis.Finding {
	board := s.part.Board
	if !s.part.Kind.IsBoard() || board.Spaces == 0 && board.FreeSpaces == 0 {
		return nil
	}
	needed, before := s.spacesUpTo()
	if needed <= board.FreeSpaces {
		return nil
	}
	placed := s.spacesOfFirst()
	if free := board.FreeSpaces + placed; needed <= free || before > free {
		return nil
	}
	out := breakerFinding(analysis.Warning,
		fmt.Sprintf("The breaker of %s finds no room: %s more needed there, %d free", s.on(), countOf(needed-placed, "space"), board.FreeSpaces),
		"the protectors of this plan need more spaces on the board than are free, those of the first plan counted as placed",
		s.spacesRemedy(), "")
	out[0].Working = analysis.Working{
		{Label: "spaces for the breakers of this plan", Result: float64(needed), Unit: "spaces", Source: fromSheet},
		{Label: "taken by protectors of the first plan", Result: float64(placed), Unit: "spaces", Source: fromSheet},
		{
			Label: "spaces still needed", Formula: "n − n1", Numbers: fmt.Sprintf("%d − %d", needed, placed),
			Result: float64(needed - placed), Unit: "spaces",
		},
		{Label: "free spaces", Result: float64(board.FreeSpaces), Unit: "spaces", Source: fromSheet},
	}
	return out
}

func (s *site) spacesRemedy() string {
	remedy := "free some, or use a protector that needs no breaker or connects to lugs"
	if told := s.part.Board.FreePositions; told != "" {
		remedy += "; free are " + told
	}
	return remedy
}

// spacesOfFirst returns the spaces that the protectors of the first plan take
// on the part. Where that is not the plan that is looked at it looks through
// all of them.
func (s *site) spacesOfFirst() int {
	first, n := s.Document.Plans()[0].ID, 0 // a document has at least one plan
	if first == s.Plan {
		for _, p := range s.index.ProtectorsOn(s.part.ID) {
			n += s.spacesOf(p)
		}
		return n
	}
	for p := range s.Document.ProtectorsOf(first) {
		if p.Bus == s.part.ID {
			n += s.spacesOf(p)
		}
	}
	return n
}

// spacesUpTo returns the spaces of the plan's protectors on the part up to this
// one, and without it.
func (s *site) spacesUpTo() (with, without int) {
	for _, p := range s.index.ProtectorsOn(s.part.ID) { // those that are left out of a trial take their spaces, too
		if p.ID == s.protector.ID {
			break
		}
		without += s.spacesOf(p)
	}
	return without + s.spacesOf(s.protector), without
}

// spacesOf returns the spaces that the breaker of a protector takes: its poles,
// or a space for each line where only its rating is stated. One that feeds
// something else is there already.
func (s *site) spacesOf(p diagram.Protector) int {
	switch b := p.Breaker; {
	case b.Shared:
		return 0
	case b.Poles > 0:
		return b.Poles
	case b.Rated > 0:
		return s.linesOf(p)
	}
	return 0
}
