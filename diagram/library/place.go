package library

import (
	"strings"

	"clampline/diagram"
)

// Place returns the protector that the entry becomes on a bus of a sheet. Its
// name is that of the kind up to the first comma, short enough for a tag; where
// that leaves something out, the note begins with the whole name.
func Place(e Entry, plan, bus, id diagram.ID) diagram.Protector {
	p := anywhere(e.Protector)
	p.ID, p.Plan, p.Bus = id, plan, bus
	if short, _, cut := strings.Cut(p.Name, ","); cut {
		p.Note = strings.TrimSpace(p.Name + "\n" + p.Note)
		p.Name = strings.TrimSpace(short)
	}
	return p
}
