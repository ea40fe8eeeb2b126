package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
)

// faultApart is by how much the fault current marked on a board and the
// computed one may differ, as a share of the lower one (common practice, no
// source).
const faultApart = 0.2

// boardRules says what of a board contradicts itself or the rest of the sheet.
func boardRules() []record[*place] {
	onBoards := slices.Concat(
		about(analysis.SubjectFault, tellsOne("fault.marked", (*place).markedApart, sayMarkedApart)),
		about(analysis.SubjectBreaker,
			tellsIf("breaker.free spaces", (*place).tooManyFree, sayTooManyFree),
			tellsIf("breaker.main above bus", (*place).mainAboveBus, sayMainAboveBus),
		),
	)
	onBoards = where(func(p *place) bool { return p.part.Kind.IsBoard() }, onBoards...)
	return slices.Concat(withstandRules(), transferRules(), derivedRules(), onBoards, bondRules())
}

// marked is the fault current marked on a board beside the computed one, A.
type marked struct {
	marked, computed float64
	apart            float64 // the higher over the lower, less 1
}

func (m marked) low() float64  { return min(m.marked, m.computed) }
func (m marked) high() float64 { return max(m.marked, m.computed) }

// markedApart compares the fault current marked on a board with the computed
// one.
func (p *place) markedApart() (marked, bool) {
	fault, known := p.fault()
	out := marked{marked: p.part.Board.FaultCurrent, computed: fault.Highest()}
	if !known || out.marked <= 0 || out.computed <= 0 {
		return marked{}, false
	}
	out.apart = out.high()/out.low() - 1
	return out, out.apart > faultApart
}

func sayMarkedApart(p *place, m marked) said {
	fault, _ := p.fault()
	why := "the mark is old, or the supply or a feeder is not as drawn"
	if fault.Estimated {
		why += "; the computed one rests on usual figures"
	}
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("%s is marked with a fault current of %s, and %s is computed", p.name(), kiloamperes(m.marked), kiloamperes(m.computed)),
		why:      why,
		remedy:   "go by the higher of the two, " + kiloamperes(m.high()) + ", for short-circuit ratings until it is clear which is right",
		source:   p.byRules(commonPractice, p.nfpa("110.24")+"; how far apart they may be is "+commonPractice),
		working: analysis.Working{
			{Label: "fault current marked on " + p.name(), Result: m.marked, Unit: "A", Source: fromSheet},
			{Label: "computed, " + fault.Why, Result: m.computed, Unit: "A"},
			{
				Label: "apart", Formula: "I_high / I_low − 1", Numbers: kiloamperes(m.high()) + " / " + kiloamperes(m.low()) + " − 1",
				Result: 100 * m.apart, Unit: "%", Source: fmt.Sprintf("told from %.0f %% on; %s", 100*faultApart, commonPractice),
			},
		},
	}
}

// tooManyFree finds more free spaces than there are spaces.
func (p *place) tooManyFree() bool {
	board := p.part.Board
	return board.Spaces > 0 && board.FreeSpaces > board.Spaces
}

func sayTooManyFree(p *place) said {
	board := p.part.Board
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("%s has %d free spaces of %d", p.name(), board.FreeSpaces, board.Spaces),
		why:      "no more can be free than there are: whether the breaker of a protector fits is not known",
		remedy:   "count both again",
	}
}

// mainAboveBus finds a main breaker above the rating of the bus.
func (p *place) mainAboveBus() bool {
	board := p.part.Board
	return board.Rating > 0 && board.MainBreaker > board.Rating
}

func sayMainAboveBus(p *place) said {
	board := p.part.Board
	return said{
		severity: analysis.Warning,
		what:     fmt.Sprintf("%s has a main breaker of %s on a bus of %s", p.name(), amperes(board.MainBreaker), amperes(board.Rating)),
		why:      "the breaker lets more flow than the bus carries",
		remedy:   "read both off the nameplates; if they are right, have it looked at before anything is added",
		source:   p.byRules(commonPractice, p.nfpa("408.36")),
	}
}
