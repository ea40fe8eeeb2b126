package compare

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"clampline/analysis"
)

// Sort is how rows are ordered, in words that don't change between versions.
type Sort string

// The sorts.
const (
	ByFlow   Sort = "flow"   // from the supply downward
	ByName   Sort = "name"   // by the alphabet
	ByWorst  Sort = "worst"  // what is worst in a plan first
	ByChange Sort = "change" // what differs most from the first plan to the last first
)

// Sorts returns every sort, in the order of a list to pick from.
func Sorts() []Sort { return []Sort{ByFlow, ByName, ByWorst, ByChange} }

// View says which rows are listed, and in which order. The zero value lists all as
// the current flows.
type View struct {
	Changes  bool // nothing but what differs between plans
	Critical bool // nothing but critical equipment
	Open     bool // nothing but what is still not held: not by every plan after the first
	Sort     Sort // empty for ByFlow
	By       int  // the plan by which ByWorst sorts
}

// View returns the rows that a view lists.
func (t *Table) View(v View) []Row {
	var out []Row
	for _, row := range t.Rows {
		if (!v.Changes || row.Changes()) && (!v.Critical || row.Critical) && (!v.Open || row.Open()) {
			out = append(out, row)
		}
	}
	switch v.Sort {
	case ByName:
		slices.SortStableFunc(out, func(a, b Row) int {
			return strings.Compare(strings.ToLower(t.Document.NameOf(a.Part.ID)), strings.ToLower(t.Document.NameOf(b.Part.ID)))
		})
	case ByWorst:
		slices.SortStableFunc(out, func(a, b Row) int { return byWorst(a.Cells[v.By], b.Cells[v.By]) })
	case ByChange:
		slices.SortStableFunc(out, func(a, b Row) int { return cmp.Compare(b.change(), a.change()) })
	}
	return out
}

func byWorst(a, b Cell) int {
	if !a.Solved || !b.Solved {
		return 0
	}
	return analysis.WorstFirst(a.Level, b.Level)
}

// moved is the share by which a voltage must differ to count as another one: less is
// within what models of a building are worth.
const moved = 0.01

// differs reports whether two levels are not the same: another verdict, another mode,
// or another voltage.
func differs(a, b analysis.Level) bool {
	return a.Verdict != b.Verdict || a.Mode != b.Mode || a.Known != b.Known || a.Known && isMoved(a.Volts, b.Volts)
}

func isMoved(a, b float64) bool { return isApart(a, b, moved) }

// isApart reports whether two figures differ by more than a share of the greater one,
// and by more than 1.
func isApart(a, b, share float64) bool { return math.Abs(a-b) > max(1, share*max(a, b)) }

// Changes reports whether a row differs between two plans that are solved.
func (r Row) Changes() bool {
	solved := r.solved()
	return slices.ContainsFunc(solved, func(c Cell) bool { return differs(c.Level, solved[0].Level) })
}

// Open reports whether a board or load is still not held: in one of the plans after
// the first, or in the only one.
func (r Row) Open() bool {
	cells := r.Cells
	if len(cells) > 1 {
		cells = cells[1:]
	}
	return slices.ContainsFunc(cells, func(c Cell) bool { return c.Solved && c.Level.Verdict != analysis.Held })
}

func (r Row) solved() []Cell {
	var out []Cell
	for _, c := range r.Cells {
		if c.Solved {
			out = append(out, c)
		}
	}
	return out
}

// change is how far a row differs from its first plan to its last: the steps between
// their verdicts first, then the share of the withstand, which a verdict bounds.
func (r Row) change() float64 {
	solved := r.solved()
	if len(solved) < 2 {
		return 0
	}
	first, last := solved[0].Level, solved[len(solved)-1].Level
	steps := math.Abs(float64(first.Verdict.Rank() - last.Verdict.Rank()))
	a, known := first.Percent()
	b, too := last.Percent()
	if !known || !too {
		return steps
	}
	return steps + min(math.Abs(a-b)/1e4, 0.99)
}
