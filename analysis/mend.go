package analysis

import "clampline/diagram"

// Mend is a change of the document that takes a finding away, where the remedy
// is mechanical. The zero value is none.
type Mend struct {
	Label string                  // what it does, as an entry of the history: "set the breaker to 3 poles"
	Apply func(*diagram.Tx) error // makes the change; records that are gone by then are left alone
}

// IsThere reports whether there is such a change.
func (m Mend) IsThere() bool { return m.Apply != nil }

// MendProtector returns the change that alters one protector.
func MendProtector(id diagram.ID, label string, alter func(*diagram.Protector)) Mend {
	return Mend{label, func(tx *diagram.Tx) error {
		if p, ok := tx.Document().Protector(id); ok {
			alter(&p)
			tx.SetProtector(p)
		}
		return nil
	}}
}

// MendPart returns the change that alters one part.
func MendPart(id diagram.ID, label string, alter func(*diagram.Part)) Mend {
	return Mend{label, func(tx *diagram.Tx) error {
		if p, ok := tx.Document().Part(id); ok {
			alter(&p)
			tx.SetPart(p)
		}
		return nil
	}}
}

// MendFeeder returns the change that alters one feeder.
func MendFeeder(id diagram.ID, label string, alter func(*diagram.Feeder)) Mend {
	return Mend{label, func(tx *diagram.Tx) error {
		if f, ok := tx.Document().Feeder(id); ok {
			alter(&f)
			tx.SetFeeder(f)
		}
		return nil
	}}
}
