package analysis

import (
	"fmt"
	"math"

	"clampline/diagram"
)

// Band tells how far the voltage of a bus can be off: in runs in which each figure
// that nobody knows for sure lies anywhere within its range, all alike likely. The
// mains is in it, at any moment of its turn; it is not in the voltages of a result.
type Band struct {
	Mode      Mode    // that which decides the verdict of the bus
	Low, High float64 // V peak: below each lie 5 and 95 % of the runs
	Withstand float64 // V peak; 0 not known
	Holds     float64 // share of such runs in which each mode that is judged stays within its withstand, Held or Tight; 0 where that is not known
	Off       float64 // standard error of Holds; 0 where all of the runs that were solved say the same
	Runs      int     // how many were solved of this bus
	Ranges    []BandRange
}

// BandRange is by how much one figure alone moves the voltage of a bus within its
// range, the others as the sheet has them. Three are told at most, the one that
// matters most first.
type BandRange struct {
	Record diagram.ID // what the figure belongs to; empty for the surge and the mains
	What   string     // "lead length"
	Volts  float64    // V, half of what lies between the least and the greatest
	Source string     // of the range, with how wide it is
}

// Label names the figure and its record: "lead length of SPD-2".
func (r BandRange) Label(doc *diagram.Document) string {
	if r.Record == "" {
		return r.What
	}
	return r.What + " of " + doc.NameOf(r.Record)
}

// Percent is the share of runs in which the bus holds, in whole per cent; but neither
// all nor none where that is not so.
func (b Band) Percent() int {
	out := int(math.Round(100 * b.Holds))
	if b.Holds > 0 && b.Holds < 1 {
		return min(max(out, 1), 99)
	}
	return out
}

// offText says how well the share is known; nothing where all runs agree.
func (b Band) offText() string {
	if b.Off <= 0 {
		return ""
	}
	return fmt.Sprintf("; known within %.1f %% in 19 of 20 cases", 200*b.Off)
}

// Working tells the band, and what moves the voltage most, as the last steps of that
// of a level.
func (b Band) Working(doc *diagram.Document) Working {
	out := Working{
		{Label: "how sure: 5 % of the runs lie below", Result: Significant(b.Low, 3), Unit: "V", Source: fmt.Sprintf("%d runs, with the mains at any moment of its turn", b.Runs)},
		{Label: "95 % of the runs lie below", Result: Significant(b.High, 3), Unit: "V", Source: "of these"},
	}
	if b.Withstand > 0 {
		out = append(out, Step{Label: "the bus holds", Text: fmt.Sprintf("in %d %% of the runs", b.Percent()), Source: "voltage up to its withstand, Held or Tight" + b.offText()})
	}
	for _, r := range b.Ranges {
		out = append(out, Step{Label: r.Label(doc) + ", alone", Text: "moves it by ±" + FigureIn(Significant(r.Volts, 2), "V"), Source: r.Source})
	}
	return out
}
