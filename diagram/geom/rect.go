package geom

import "math"

// Rect is an upright rectangle from Min to Max, in millimetres. It is empty
// where Max lies left of or above Min; the zero value is the single point at
// the origin.
type Rect struct{ Min, Max Point }

// RectOf returns the smallest rectangle that holds both points.
func RectOf(a, b Point) Rect {
	return Rect{
		Point{min(a.X, b.X), min(a.Y, b.Y)},
		Point{max(a.X, b.X), max(a.Y, b.Y)},
	}
}

// Empty returns a rectangle that holds nothing: its union with another is the
// other.
func Empty() Rect {
	inf := math.Inf(1)
	return Rect{Point{inf, inf}, Point{-inf, -inf}}
}

// IsEmpty reports whether r holds no point.
func (r Rect) IsEmpty() bool { return r.Max.X < r.Min.X || r.Max.Y < r.Min.Y }

// Width returns the extent along x, in millimetres.
func (r Rect) Width() float64 { return r.Max.X - r.Min.X }

// Height returns the extent along y, in millimetres.
func (r Rect) Height() float64 { return r.Max.Y - r.Min.Y }

// Center returns the point in the middle of r.
func (r Rect) Center() Point { return r.Min.Add(r.Max).Mul(0.5) }

// Contains reports whether p lies in r or on its edge.
func (r Rect) Contains(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Holds reports whether all of s lies in r.
func (r Rect) Holds(s Rect) bool {
	return !s.IsEmpty() && r.Contains(s.Min) && r.Contains(s.Max)
}

// Overlaps reports whether r and s share a point.
func (r Rect) Overlaps(s Rect) bool {
	return !r.IsEmpty() && !s.IsEmpty() &&
		r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}

// Union returns the smallest rectangle that holds r and s.
func (r Rect) Union(s Rect) Rect {
	if r.IsEmpty() {
		return s
	}
	if s.IsEmpty() {
		return r
	}
	return Rect{
		Point{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)},
		Point{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)},
	}
}

// Include returns the smallest rectangle that holds r and p.
func (r Rect) Include(p Point) Rect { return r.Union(Rect{p, p}) }

// Grow returns r with each side moved outward by d millimetres, inward where d
// is negative.
func (r Rect) Grow(d float64) Rect {
	if r.IsEmpty() {
		return r
	}
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Move returns r moved by p.
func (r Rect) Move(p Point) Rect { return Rect{r.Min.Add(p), r.Max.Add(p)} }

// Corners returns the four corners, clockwise from Min.
func (r Rect) Corners() [4]Point {
	return [4]Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}

// Intersect returns what r and s share, which may be empty.
func (r Rect) Intersect(s Rect) Rect {
	return Rect{
		Min: Point{max(r.Min.X, s.Min.X), max(r.Min.Y, s.Min.Y)},
		Max: Point{min(r.Max.X, s.Max.X), min(r.Max.Y, s.Max.Y)},
	}
}
