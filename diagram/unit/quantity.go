package unit

import "math"

// A quantity is how one dimension is written and read in one convention.
type quantity struct {
	noun string // its name in messages
	sums bool   // several terms may be added: 2 ft 2 in

	such    string // what somebody may type, as an example
	iecSuch string // the same for IEC, where it differs

	takes []measure // what is read; the first is that of a number alone
	steps []step    // what is shown, from the largest values down

	iecTakes []measure // the same for IEC, where it differs
	iecSteps []step
}

// A step is the measure in which values from a limit up are shown.
type step struct {
	from    float64 // smallest value, in the unit the dimension is kept in
	measure measure
	figures int  // significant figures; whole digits are kept up to four
	round   bool // only for values that need at most three figures
}

// quantityOf returns the way to write d in c.
func quantityOf(d Dimension, c Convention) quantity {
	if int(d) >= len(quantities) {
		d = Ratio
	}
	q := quantities[d]
	if c == IEC && q.iecSuch != "" {
		q.such = q.iecSuch
	}
	if c == IEC && q.iecTakes != nil {
		q.takes, q.steps = q.iecTakes, q.iecSteps
	}
	return q
}

// usual returns the measure of a number alone, and of zero.
func (q quantity) usual() measure { return q.takes[0] }

// stepFor returns the step in which v is shown. It looks at v as four figures
// show it, so that 9999.9 V becomes 10 kV and not 10 000 V.
func (q quantity) stepFor(v float64) step {
	if v == 0 {
		return step{measure: q.usual(), figures: 1}
	}
	size := math.Abs(rounded(v, shownFigures))
	for _, s := range q.steps {
		if size >= s.from && (!s.round || significant(v/s.measure.worth) <= 3) {
			return s
		}
	}
	return q.steps[len(q.steps)-1]
}
