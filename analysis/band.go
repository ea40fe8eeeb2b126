package analysis

import "clampline/diagram"

// Band tells how far the voltage of a bus can be off: in runs in which each figure
// that nobody knows for sure lies anywhere within its range, all alike likely. The
// mains is in it, at any moment of its turn; it is not in the voltages of a result.
type Band struct {
	Mode      Mode    // that which decides the verdict of the bus
	Low, High float64 // V peak: below each lie 5 and 95 % of the runs
	Withstand float64 // V peak; 0 not known
	Holds     float64 // share of the runs in which each mode that is judged stays within its withstand, Held or Tight; 0 where that is not known
	Runs      int     // how many runs there were
	Ranges    []BandRange
}

// BandRange is by how much one figure alone moves the voltage of a bus within its
// range, the others as the sheet has them. Three are told at most, the one that
// matters most first.
type BandRange struct {
	Record diagram.ID // what the figure belongs to; empty for the surge and the mains
	What   string     // "lead length"
	Volts  float64    // V, half of what lies between the least and the greatest
}

// Label names the figure and its record: "lead length of SPD-2".
func (r BandRange) Label(doc *diagram.Document) string {
	if r.Record == "" {
		return r.What
	}
	return r.What + " of " + doc.NameOf(r.Record)
}
