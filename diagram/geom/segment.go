package geom

import "math"

// Segment is the straight line from A to B.
type Segment struct{ A, B Point }

// Length returns the length in millimetres.
func (s Segment) Length() float64 { return s.A.Distance(s.B) }

// At returns the point at share t of the way from A (0) to B (1).
func (s Segment) At(t float64) Point { return s.A.Add(s.B.Sub(s.A).Mul(t)) }

// Nearest returns the share of the way, 0 to 1, of the point nearest to p.
func (s Segment) Nearest(p Point) float64 {
	step := s.B.Sub(s.A)
	square := step.X*step.X + step.Y*step.Y
	if square == 0 {
		return 0
	}
	to := p.Sub(s.A)
	return math.Max(0, math.Min(1, (to.X*step.X+to.Y*step.Y)/square))
}

// Distance returns how far p is from the segment, in millimetres.
func (s Segment) Distance(p Point) float64 { return s.At(s.Nearest(p)).Distance(p) }

// Meets reports whether the segment has a point in common with r.
func (s Segment) Meets(r Rect) bool {
	enter, leave := 0.0, 1.0
	step := s.B.Sub(s.A)
	clip := func(from, by, low, high float64) bool {
		if by == 0 {
			return from >= low && from <= high
		}
		first, second := (low-from)/by, (high-from)/by
		if first > second {
			first, second = second, first
		}
		enter, leave = math.Max(enter, first), math.Min(leave, second)
		return enter <= leave
	}
	return !r.IsEmpty() && clip(s.A.X, step.X, r.Min.X, r.Max.X) && clip(s.A.Y, step.Y, r.Min.Y, r.Max.Y)
}
