package geom

// Affine maps (x, y) to (A x + C y + E, B x + D y + F).
type Affine struct{ A, B, C, D, E, F float64 }

// Identity returns the map that leaves each point where it is.
func Identity() Affine { return Affine{A: 1, D: 1} }

// Translate returns the map that moves by p.
func Translate(p Point) Affine { return Affine{A: 1, D: 1, E: p.X, F: p.Y} }

// Scale returns the map that multiplies both coordinates by k.
func Scale(k float64) Affine { return Affine{A: k, D: k} }

// Turn returns the rotation about the origin by n quarter turns, clockwise on
// the sheet. It is exact: no cosine is evaluated.
func Turn(n int) Affine {
	switch ((n % 4) + 4) % 4 {
	case 1:
		return Affine{B: 1, C: -1}
	case 2:
		return Affine{A: -1, D: -1}
	case 3:
		return Affine{B: -1, C: 1}
	}
	return Identity()
}

// Then returns the map that applies m first and next after it.
func (m Affine) Then(next Affine) Affine {
	return Affine{
		A: next.A*m.A + next.C*m.B, B: next.B*m.A + next.D*m.B,
		C: next.A*m.C + next.C*m.D, D: next.B*m.C + next.D*m.D,
		E: next.A*m.E + next.C*m.F + next.E, F: next.B*m.E + next.D*m.F + next.F,
	}
}

// Apply returns where m sends p.
func (m Affine) Apply(p Point) Point {
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// ApplyRect returns the smallest upright rectangle round the image of r.
func (m Affine) ApplyRect(r Rect) Rect {
	if r.IsEmpty() {
		return r
	}
	if m.B == 0 && m.C == 0 || m.A == 0 && m.D == 0 {
		return RectOf(m.Apply(r.Min), m.Apply(r.Max))
	}
	out := Empty()
	for _, corner := range r.Corners() {
		out = out.Include(m.Apply(corner))
	}
	return out
}

// Inverse returns the map that undoes m, and false where m squeezes the plane
// to a line or a point and none exists.
func (m Affine) Inverse() (Affine, bool) {
	det := m.A*m.D - m.B*m.C
	if det == 0 {
		return Affine{}, false
	}
	inv := Affine{A: m.D / det, B: -m.B / det, C: -m.C / det, D: m.A / det}
	origin := inv.Apply(Point{m.E, m.F})
	inv.E, inv.F = -origin.X, -origin.Y
	return inv, true
}
