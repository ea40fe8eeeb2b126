package library

import (
	"slices"
	"strings"

	"clampline/diagram"
)

// InPlaceOf returns the protector that the entry becomes where another one
// stands: under the same name, with the same leads, and on the same breaker where
// it has one, of a pole for each line where it has other lines than the old one.
// What was noted stays, unless isNote says that it is the note of a kind.
func InPlaceOf(old diagram.Protector, e Entry, isNote func(string) bool) diagram.Protector {
	out := Place(e, old.Plan, old.Bus, old.ID)
	out.Name, out.Offset, out.Leads, out.Extra = old.Name, old.Offset, old.Leads, old.Extra
	if old.Breaker.Rated > 0 {
		out.Breaker.Rated, out.Breaker.Poles, out.Breaker.Shared = old.Breaker.Rated, old.Breaker.Poles, old.Breaker.Shared
		if lines := out.System.Lines(); old.Breaker.Poles > 0 && lines > 0 && lines != old.System.Lines() {
			out.Breaker.Poles = lines
		}
	}
	if old.Note != "" && !isNote(old.Note) {
		out.Note = strings.TrimSpace(old.Note + "\n" + out.Note)
	}
	return out
}

// IsNote reports whether a note is that of one of the kinds, and not what
// somebody wrote about the place.
func IsNote(all []Entry, note string) bool {
	return slices.ContainsFunc(all, func(e Entry) bool { return Place(e, "", "", "").Note == note })
}
