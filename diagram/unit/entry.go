package unit

// entryFigures is how many figures an entry field shows of a value that needs
// more than a person types.
const entryFigures = 5

// FormatEntry returns the text for an entry field. It is always in the unit that
// UnitName gives, so that a number typed in its place means what was shown
// (a wire size is written as the trade does): exact where that takes no more
// figures than a person types, and rounded else. A field whose text was left
// alone must keep its value and not parse the text.
func FormatEntry(v float64, d Dimension, c Convention) string {
	switch {
	case !finite(v):
		return notFinite(v)
	case d == Count || d == Money:
		return FormatExact(v, d, c)
	case d == Area:
		return entryArea(v, c)
	}
	return quantityOf(d, c).usual().entry(v)
}

func (m measure) entry(v float64) string {
	if cost(v, m) == typedFigures {
		return m.exact(v)
	}
	return m.of(decimal(rounded(v/m.worth, entryFigures)))
}

// entryArea writes the gauge that a person knows the size by, where it is one.
func entryArea(v float64, c Convention) string {
	if c == IEC {
		return squareMillimetre.entry(v)
	}
	if name, ok := gaugeName(v, shownTolerance); ok {
		return name
	}
	if v >= AWGArea(largestGauge) && cost(v, kcmil) == typedFigures {
		return kcmil.exact(v)
	}
	return squareMillimetre.entry(v)
}

// Wanted says what Parse takes for d, in words that follow "must be": "a number
// with ft, in or m".
func Wanted(d Dimension, c Convention) string {
	q := quantityOf(d, c)
	q.takes = q.takes[:min(len(q.takes), 3)] // the usual ones
	switch {
	case d == Count:
		return "a whole number"
	case d == Area && c == IEC:
		return "a size in mm², AWG or kcmil"
	case d == Area:
		return "a size in AWG, kcmil or mm²"
	case q.usual().name() == "":
		return "a number"
	}
	return "a number with " + q.choice()
}

// Such returns an example of what Parse takes for d.
func Such(d Dimension, c Convention) string { return quantityOf(d, c).such }
