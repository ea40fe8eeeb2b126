package unit

import (
	"math"
	"strconv"
)

// typedFigures is how many figures a person may well have typed: a measure in
// which the value needs no more is as friendly as any.
const typedFigures = 6

// FormatExact returns the text for an entry field: parsed again in the same
// convention it gives v within 1e-12 of itself, in the friendliest unit that
// does so: "26 in", "8 m". An area within 1e-6 of a gauge is written as that
// gauge. v is in the unit of d. A count that is not whole is written as it is,
// and refused by Parse.
func FormatExact(v float64, d Dimension, c Convention) string {
	if !finite(v) {
		return notFinite(v)
	}
	switch {
	case d == Count:
		return decimal(v)
	case d == Money:
		return exactMoney(v)
	case d == Area:
		return exactArea(v, c)
	case d == Length && c != IEC:
		return exactFeet(v)
	}
	return quantityOf(d, c).exact(v)
}

// exact writes v in the measure in which it is shown, unless another needs
// clearly fewer figures.
func (q quantity) exact(v float64) string {
	best := q.stepFor(v).measure
	for _, m := range q.takes {
		if cost(v, m) < cost(v, best) {
			best = m
		}
	}
	return best.exact(v)
}

// cost returns how many figures v needs in m, counting few as none.
func cost(v float64, m measure) int { return max(typedFigures, significant(v/m.worth)) }

func (m measure) exact(v float64) string {
	return m.of(decimal(rounded(v/m.worth, exactFigures)))
}

// exactFeet writes a long run in feet, or else in feet and inches if that is
// short, or else in the friendliest unit.
func exactFeet(v float64) string {
	size := math.Abs(v)
	if cost(v, foot) == typedFigures || cost(v, inch) > typedFigures || size < foot.worth || size >= 1e5 {
		return quantityOf(Length, NorthAmerican).exact(v)
	}
	inches := rounded(v/inch.worth, exactFigures)
	feet := math.Trunc(inches / 12)
	return foot.of(decimal(feet)) + " " + inch.of(decimal(rounded(math.Abs(inches-12*feet), typedFigures)))
}

// exactMoney writes two decimals or none, and more only where v has more.
func exactMoney(v float64) string {
	exact := rounded(v, exactFigures)
	text := cents(v)
	if short, err := strconv.ParseFloat(text, 64); err == nil && rounded(short, exactFigures) == exact {
		return text
	}
	return decimal(exact)
}

// exactArea prefers a gauge or kcmil size in the North American convention, and
// in IEC keeps it for areas that have no short form in mm².
func exactArea(v float64, c Convention) string {
	short := cost(v, squareMillimetre) == typedFigures
	if c == IEC && short {
		return squareMillimetre.exact(v)
	}
	if name, ok := gaugeName(v, exactTolerance); ok {
		return name
	}
	if v >= AWGArea(largestGauge) && cost(v, kcmil) == typedFigures {
		return kcmil.exact(v)
	}
	return squareMillimetre.exact(v)
}
