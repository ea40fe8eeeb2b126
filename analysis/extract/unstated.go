package extract

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// IsUnstated reports whether a part is a load of which nothing says what a surge
// meets at its terminals. A motor without a drive has no input filter.
func IsUnstated(p diagram.Part) bool {
	return p.Kind == diagram.Load && p.Load.Terminals == "" && !p.Load.Motor
}

// HasUnstated reports whether there is such a load in a document.
func HasUnstated(doc *diagram.Document) bool {
	for p := range doc.Parts() {
		if IsUnstated(p) {
			return true
		}
	}
	return false
}

// What is told of loads, of one and of the others after the first.
const (
	motorsOpen  = "counts as open, being a motor without a drive: it takes nothing, and the wave is reflected at it|counts as open, being motors without a drive: they take nothing, and the wave is reflected at them"
	takenOpen   = "counts as open: it takes nothing, and the wave is reflected at it|count as open: they take nothing, and the wave is reflected at them"
	takenFilter = "counts as an input filter of %[1]g µF between its conductors and %[2]g nF from each to earth|count as input filters of %[1]g µF between their conductors and %[2]g nF from each to earth"
	takenEither = "counts as open and as an input filter, and each place shows the worse of the two: open it takes nothing, and the wave is reflected at it; the filter is %[1]g µF between its conductors and %[2]g nF from each to earth" +
		"|count as open and as input filters, and each place shows the worse of the two: open they take nothing, and the wave is reflected at them; the filters are %[1]g µF between their conductors and %[2]g nF from each to earth"
)

const filterSource = "common practice, no source; the filter from memory"

// AsOpen tells that loads, of which there is at least one, count as open.
func AsOpen(loads []diagram.ID) analysis.Assumption {
	return withMore(loads, takenOpen, "common practice, no source")
}

// AsFilters tells that they count as input filters.
func AsFilters(loads []diagram.ID) analysis.Assumption {
	return withMore(loads, fmt.Sprintf(takenFilter, filterBetween*1e6, filterToEarth*1e9), filterSource)
}

// AsEither tells that the worse of the two counts.
func AsEither(loads []diagram.ID) analysis.Assumption {
	return withMore(loads, fmt.Sprintf(takenEither, filterBetween*1e6, filterToEarth*1e9), filterSource)
}

// withMore tells something of the first of some records and of the others with it.
func withMore(ids []diagram.ID, words, source string) analysis.Assumption {
	text, many, _ := strings.Cut(words, "|")
	if len(ids) > 1 {
		text = "and " + unit.CountOf(len(ids)-1, "more load|more loads") + " " + many
	}
	return analysis.Assumption{Record: ids[0], Text: text, Source: source}
}
