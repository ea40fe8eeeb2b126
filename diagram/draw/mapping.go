package draw

import (
	"math"

	"clampline/diagram/geom"
)

// mapping is how one picture is drawn into another.
type mapping struct {
	affine geom.Affine
	scale  float64
	tint   Role
}

func newMapping(m geom.Affine, tint Role) mapping {
	return mapping{m, math.Sqrt(math.Abs(m.A*m.D - m.B*m.C)), tint}
}

func (m mapping) shape(s Shape) Shape {
	s.Path = s.Path.Transform(m.affine)
	s.Fill = s.Fill.tinted(m.tint)
	s.Pen.Role = s.Pen.Role.tinted(m.tint)
	s.Pen.Width *= m.scale
	return s
}

// text keeps the text upright: the middle of its capitals goes where the map
// sends it, so that a letter inside a turned symbol stays inside, and a text
// beside a symbol stays beside it.
func (m mapping) text(t Text) Text {
	half := geom.Pt(0, CapHeight(t.Size)/2)
	t.At = m.affine.Apply(t.At.Sub(half)).Add(half.Mul(m.scale))
	t.Size *= m.scale
	t.Role = t.Role.tinted(m.tint)
	t.Align = m.align(t.Align)
	return t
}

// align returns how a text is aligned after the map: the other way round where
// right becomes left, in the middle where it becomes up or down.
func (m mapping) align(a Align) Align {
	switch along := m.affine.A / m.scale; {
	case along < -0.5:
		return Right - a
	case along < 0.5:
		return Center
	}
	return a
}

// quarterTurn returns how many quarter turns m turns by, and false where it
// does anything else besides moving.
func quarterTurn(m geom.Affine) (int, bool) {
	for n := range 4 {
		if t := geom.Turn(n); m.A == t.A && m.B == t.B && m.C == t.C && m.D == t.D {
			return n, true
		}
	}
	return 0, false
}
