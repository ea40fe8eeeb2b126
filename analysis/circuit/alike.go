package circuit

// Inverse returns the inverse of the matrix for m conductors. Own, and Own
// plus m times Shared, must not be zero.
func (a Alike) Inverse(m int) Alike {
	return Alike{Own: 1 / a.Own, Shared: -a.Shared / (a.Own * (a.Own + float64(m)*a.Shared))}
}

// Times returns the product of two such matrices for m conductors.
func (a Alike) Times(b Alike, m int) Alike {
	return Alike{Own: a.Own * b.Own, Shared: a.Own*b.Shared + a.Shared*b.Own + float64(m)*a.Shared*b.Shared}
}

// Scaled returns the matrix times a number.
func (a Alike) Scaled(by float64) Alike { return Alike{a.Own * by, a.Shared * by} }
