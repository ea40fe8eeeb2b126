package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// faultApart is by how much the fault current marked on a board and the
// computed one may differ, as a share of the lower one (common practice, no
// source).
const faultApart = 0.2

// boardRules says what of a board contradicts itself or the rest of the sheet.
func boardRules(p *place) []analysis.Finding {
	out := slices.Concat(withstandRules(p), transferBond(p), derivedBond(p))
	if !p.part.Kind.IsBoard() {
		return out
	}
	out = append(out, markedFault(p)...)
	out = append(out, freeSpaces(p)...)
	out = append(out, mainBreaker(p)...)
	return append(out, bondRules(p)...)
}

// about returns a finding on the part.
func (p *place) about(severity analysis.Severity, subject, what, why, remedy, source string) []analysis.Finding {
	return []analysis.Finding{{
		Severity: severity, Subject: subject, Records: []diagram.ID{p.part.ID}, Critical: p.critical,
		What: what, Why: why, Remedy: remedy, Source: source,
	}}
}

// markedFault compares the fault current marked on a board with the computed
// one.
func markedFault(p *place) []analysis.Finding {
	fault, known := p.fault()
	marked, computed := p.part.Board.FaultCurrent, fault.Highest()
	if !known || marked <= 0 || computed <= 0 {
		return nil
	}
	low, high := min(marked, computed), max(marked, computed)
	apart := high/low - 1
	if apart <= faultApart {
		return nil
	}
	why := "the mark is old, or the supply or a feeder is not as drawn"
	if fault.Estimated {
		why = "the mark is old, or the supply or a feeder is not as drawn; the computed one rests on usual figures"
	}
	source := commonPractice
	if !p.iec {
		source = p.nfpa("110.24") + "; how far apart they may be is " + commonPractice
	}
	out := p.about(analysis.Warning, analysis.SubjectFault,
		fmt.Sprintf("%s is marked with a fault current of %s, and %s is computed", p.name(), kiloamperes(marked), kiloamperes(computed)), why,
		"go by the higher of the two, "+kiloamperes(high)+", for short-circuit ratings until it is clear which is right", source)
	out[0].Working = analysis.Working{
		{Label: "fault current marked on " + p.name(), Result: marked, Unit: "A", Source: fromSheet},
		{Label: "computed, " + fault.Why, Result: computed, Unit: "A"},
		{
			Label: "apart", Formula: "I_high / I_low − 1", Numbers: kiloamperes(high) + " / " + kiloamperes(low) + " − 1",
			Result: 100 * apart, Unit: "%", Source: fmt.Sprintf("told from %.0f %% on; %s", 100*faultApart, commonPractice),
		},
	}
	return out
}

// freeSpaces reports more free spaces than there are spaces.
func freeSpaces(p *place) []analysis.Finding {
	board := p.part.Board
	if board.Spaces <= 0 || board.FreeSpaces <= board.Spaces {
		return nil
	}
	return p.about(analysis.Warning, analysis.SubjectBreaker,
		fmt.Sprintf("%s has %d free spaces of %d", p.name(), board.FreeSpaces, board.Spaces),
		"no more can be free than there are: whether the breaker of a protector fits is not known", "count both again", "")
}

// mainBreaker reports a main breaker above the rating of the bus.
func mainBreaker(p *place) []analysis.Finding {
	board := p.part.Board
	if board.Rating <= 0 || board.MainBreaker <= board.Rating {
		return nil
	}
	source := commonPractice
	if !p.iec {
		source = p.nfpa("408.36")
	}
	return p.about(analysis.Warning, analysis.SubjectBreaker,
		fmt.Sprintf("%s has a main breaker of %s on a bus of %s", p.name(), amperes(board.MainBreaker), amperes(board.Rating)),
		"the breaker lets more flow than the bus carries", "read both off the nameplates; if they are right, have it looked at before anything is added", source)
}
