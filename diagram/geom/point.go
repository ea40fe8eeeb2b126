package geom

import "math"

// Point is a place on the sheet, or the step from one place to another, in
// millimetres.
type Point struct{ X, Y float64 }

// Pt returns the point (x, y).
func Pt(x, y float64) Point { return Point{x, y} }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the step from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p with both coordinates times k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Length returns the distance of p from the origin, in millimetres.
func (p Point) Length() float64 { return math.Hypot(p.X, p.Y) }

// Distance returns the distance from p to q, in millimetres.
func (p Point) Distance(q Point) float64 { return p.Sub(q).Length() }

// Snap returns the nearest point of a square grid of the given pitch in
// millimetres; a pitch of zero or less leaves p as it is.
func (p Point) Snap(pitch float64) Point {
	if pitch <= 0 {
		return p
	}
	return Point{math.Round(p.X/pitch) * pitch, math.Round(p.Y/pitch) * pitch}
}

// Finite reports whether both coordinates are ordinary numbers.
func (p Point) Finite() bool {
	return !math.IsNaN(p.X) && !math.IsInf(p.X, 0) && !math.IsNaN(p.Y) && !math.IsInf(p.Y, 0)
}
