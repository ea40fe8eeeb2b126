package analysis

import (
	"strings"

	"clampline/diagram"
)

// Mend is a change of the document that takes a finding away, where the remedy
// is mechanical. The zero value is none.
type Mend struct {
	Kind  string                  // what it does, whatever it does it to: "set the breaker of … to 3 poles"
	Label string                  // the same with the name, as an entry of the history
	Apply func(*diagram.Tx) error // makes the change; records that are gone by then are left alone
}

// IsThere reports whether there is such a change.
func (m Mend) IsThere() bool { return m.Apply != nil }

// nameHere stands in the kind of a change for the name of what it is made to.
const nameHere = "…"

// NewMend returns a change of a kind, which has nameHere where its label has the
// name.
func NewMend(kind, name string, apply func(*diagram.Tx) error) Mend {
	return Mend{kind, strings.Replace(kind, nameHere, name, 1), apply}
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
