package geom

import "math"

// Polyline is a chain of straight pieces through its points. With fewer than
// two points it has no length.
type Polyline []Point

// Length returns the length of all pieces together, in millimetres.
func (l Polyline) Length() float64 {
	sum := 0.0
	for i := 1; i < len(l); i++ {
		sum += l[i-1].Distance(l[i])
	}
	return sum
}

// Bounds returns the smallest rectangle that holds every point.
func (l Polyline) Bounds() Rect {
	out := Empty()
	for _, p := range l {
		out = out.Include(p)
	}
	return out
}

// Distance returns how far p is from the nearest piece, in millimetres, or
// infinity where there is none.
func (l Polyline) Distance(p Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(l); i++ {
		best = math.Min(best, Segment{l[i-1], l[i]}.Distance(p))
	}
	return best
}

// At returns the point at share t of the way along the chain, 0 to 1, and the
// unit step of the piece it lies on. An empty chain gives zero values.
func (l Polyline) At(t float64) (Point, Point) {
	if len(l) == 0 {
		return Point{}, Point{}
	}
	left := math.Max(0, math.Min(1, t)) * l.Length()
	for i := 1; i < len(l); i++ {
		piece := Segment{l[i-1], l[i]}
		size := piece.Length()
		if size > 0 && (left <= size || i == len(l)-1) {
			return piece.At(math.Min(1, left/size)), piece.B.Sub(piece.A).Mul(1 / size)
		}
		left -= size
	}
	return l[len(l)-1], Point{}
}

// Cut returns the part of the chain between the shares from and to of its
// length, each 0 to 1 and from no greater than to.
func (l Polyline) Cut(from, to float64) Polyline {
	if len(l) == 0 {
		return nil
	}
	total := l.Length()
	start, _ := l.At(from)
	end, _ := l.At(to)
	out := Polyline{start}
	walked := 0.0
	for i := 1; i < len(l); i++ {
		walked += l[i-1].Distance(l[i])
		if walked > from*total && walked < to*total {
			out = append(out, l[i])
		}
	}
	return append(out, end)
}

// Meets reports whether any piece has a point in common with r.
func (l Polyline) Meets(r Rect) bool {
	for i := 1; i < len(l); i++ {
		if (Segment{l[i-1], l[i]}).Meets(r) {
			return true
		}
	}
	return false
}
