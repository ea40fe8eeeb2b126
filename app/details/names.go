package details

import (
	"slices"

	"clampline/diagram"
)

// Distinct returns the names with the id after each that stands in the list
// already, so that a list to pick from has no two lines alike.
func Distinct(names []string, ids []diagram.ID) []string {
	out := make([]string, len(names))
	for i, name := range names {
		if slices.Contains(out[:i], name) {
			name += " (" + string(ids[i]) + ")"
		}
		out[i] = name
	}
	return out
}
