package diagram

// SameBuilding reports whether two documents have the same parts and feeders,
// wherever on the sheet they are drawn, and say the same of the sheet as a whole.
// It costs next to nothing where one is a snapshot of the other and only the
// protectors have changed since.
func (d *Document) SameBuilding(other *Document) bool {
	return same(d.info, other.info) &&
		d.feeders.alike(&other.feeders, func(a, b *Feeder) bool { return *a != *b }) &&
		d.parts.alike(&other.parts, func(a, b *Part) bool { return a.undrawn() != b.undrawn() })
}

// SameProtectors reports whether two documents have the same protectors, at the cost
// that SameBuilding has.
func (d *Document) SameProtectors(other *Document) bool {
	return d.protectors.alike(&other.protectors, func(a, b *Protector) bool { return *a != *b })
}

// undrawn returns the part without what is only of the drawing.
func (p Part) undrawn() Part {
	none := Part{}
	p.At, p.Turn, p.Span = none.At, none.Turn, none.Span
	return p
}
