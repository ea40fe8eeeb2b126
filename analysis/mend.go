package analysis

import (
	"strings"

	"clampline/diagram"
	"clampline/diagram/library"
)

// Mend is a change of the installation, on the drawing, that takes a finding
// away, where the remedy is mechanical. It alters what a nameplate states only
// where the finding is about that. The zero value is none.
type Mend struct {
	Kind  string                  // what it does, whatever it does it to: "set the breaker of … to 3 poles"
	Label string                  // the same with the name, as an entry of the history
	Apply func(*diagram.Tx) error // makes the change, of several ways the best; records that are gone by then are left alone

	// Choices returns the ways to make it, the best one first, out of the user's
	// library and the kinds that come with the program; nil where there is nothing
	// to choose. Not for several goroutines at a time. It takes as long as some dozens
	// of checks of one protector.
	Choices func(own []library.Entry) []Choice
	Opening Opening // where that goes which can be chosen
}

// Choice is a protector that takes a finding away, and the change that places it.
type Choice struct {
	Entry library.Entry
	Mend  Mend
}

// Opening is where a protector is wanted. The zero value is nowhere.
type Opening struct {
	Bus       diagram.ID
	Protector diagram.ID // that it takes the place of; empty where it comes besides
}

// IsThere reports whether there is such a change.
func (m Mend) IsThere() bool { return m.Apply != nil }

// nameHere stands in the kind of a change for the name of what it is made to.
const nameHere = "…"

// NewMend returns a change of a kind, which has nameHere where its label has the
// name.
func NewMend(kind, name string, apply func(*diagram.Tx) error) Mend {
	return Mend{Kind: kind, Label: strings.Replace(kind, nameHere, name, 1), Apply: apply}
}

// MendProtector returns the change that alters one protector; kind and name are
// those of NewMend.
func MendProtector(id diagram.ID, kind, name string, alter func(*diagram.Protector)) Mend {
	return NewMend(kind, name, func(tx *diagram.Tx) error {
		if p, ok := tx.Document().Protector(id); ok {
			alter(&p)
			tx.SetProtector(p)
		}
		return nil
	})
}

// MendPart returns the change that alters one part.
func MendPart(id diagram.ID, kind, name string, alter func(*diagram.Part)) Mend {
	return NewMend(kind, name, func(tx *diagram.Tx) error {
		if p, ok := tx.Document().Part(id); ok {
			alter(&p)
			tx.SetPart(p)
		}
		return nil
	})
}

// MendFeeder returns the change that alters one feeder.
func MendFeeder(id diagram.ID, kind, name string, alter func(*diagram.Feeder)) Mend {
	return NewMend(kind, name, func(tx *diagram.Tx) error {
		if f, ok := tx.Document().Feeder(id); ok {
			alter(&f)
			tx.SetFeeder(f)
		}
		return nil
	})
}
