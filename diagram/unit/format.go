package unit

import (
	"math"
	"strconv"
)

// Format returns v as a person would write it on a drawing: "26 ft", "4/0 AWG",
// "1 240 V", "22 kA". It has at most four significant figures, money two
// decimals and a count all its digits; thousands are set apart by a no-break
// space. Volts become kilovolts from 10 kV, amperes kiloamperes from 10 kA, or
// from 1 kA if three figures are enough. v is in the unit of d.
func Format(v float64, d Dimension, c Convention) string {
	if !finite(v) {
		return notFinite(v)
	}
	switch d {
	case Area:
		if name, ok := sizeName(v, shownTolerance); ok && c != IEC {
			return name
		}
	case Money:
		return grouped(cents(v))
	case Count:
		return grouped(decimal(math.Round(v)))
	}
	s := quantityOf(d, c).stepFor(v)
	number := v / s.measure.worth
	figures := max(s.figures, wholeDigits(number))
	return s.measure.of(grouped(decimal(rounded(number, figures))))
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// notFinite writes what is no quantity; Parse does not read it.
func notFinite(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
