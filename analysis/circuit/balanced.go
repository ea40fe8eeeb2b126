package circuit

// Inverse returns the inverse of the matrix for m conductors. Own, and Own
// plus m times Mutual, must not be zero.
func (a Balanced) Inverse(m int) Balanced {
	return Balanced{Own: 1 / a.Own, Mutual: -a.Mutual / (a.Own * (a.Own + float64(m)*a.Mutual))}
}

// Times returns the product of two such matrices for m conductors.
func (a Balanced) Times(b Balanced, m int) Balanced {
	return Balanced{Own: a.Own * b.Own, Mutual: a.Own*b.Mutual + a.Mutual*b.Own + float64(m)*a.Mutual*b.Mutual}
}

// Scaled returns the matrix times a number.
func (a Balanced) Scaled(by float64) Balanced { return Balanced{a.Own * by, a.Mutual * by} }
