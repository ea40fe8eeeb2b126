package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// spaces are those for the breakers of a plan on a board.
type spaces struct {
	needed int // by the protectors of the plan up to this one
	placed int // by those of the first plan
	free   int // as the sheet states it
}

// breakerSpaces compares the spaces that the protectors of the plan need with
// those that are free on the board. The free ones are counted with the
// protectors of the first plan, the building as found, in their places: on the
// first plan nothing is missing, and on another only what it needs beyond. The
// finding stands at the protector that finds no room first.
func (s *site) breakerSpaces() (spaces, bool) {
	board := s.part.Board
	if !s.part.Kind.IsBoard() || board.Spaces == 0 && board.FreeSpaces == 0 {
		return spaces{}, false
	}
	needed, before := s.spacesUpTo()
	if needed <= board.FreeSpaces {
		return spaces{}, false
	}
	n := spaces{needed, s.spacesOfFirst(), board.FreeSpaces}
	free := n.free + n.placed
	return n, needed > free && before <= free
}

func sayBreakerSpaces(s *site, n spaces) said {
	more := n.needed - n.placed
	remedy := "free some, or use a protector that needs no breaker or connects to lugs"
	if told := s.part.Board.FreePositions; told != "" {
		remedy += "; free are " + told
	}
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("The breaker of %s finds no room: %s more needed there, %d free", s.on(), unit.CountOf(more, "space"), n.free),
		why:      "the protectors of this plan need more spaces on the board than are free, those of the first plan counted as placed",
		remedy:   remedy,
		working: analysis.Working{
			{Label: "spaces for the breakers of this plan", Result: float64(n.needed), Unit: "spaces", Source: fromSheet},
			{Label: "taken by protectors of the first plan", Result: float64(n.placed), Unit: "spaces", Source: fromSheet},
			{Label: "spaces still needed", Formula: "n − n1", Numbers: fmt.Sprintf("%d − %d", n.needed, n.placed), Result: float64(more), Unit: "spaces"},
			{Label: "free spaces", Result: float64(n.free), Unit: "spaces", Source: fromSheet},
		},
	}
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
