package draw

import (
	"math"
	"slices"

	"clampline/diagram/geom"
)

// Line returns the path straight through the points. It keeps them: a slice
// that is handed over must not be altered any more.
func Line(points ...geom.Point) Path {
	count := len(points)
	return Path{verbs: lineVerbs(count), points: points[:count:count]}
}

// lineVerbs returns the steps through a number of points. Lines of few points
// share theirs, which no path alters.
func lineVerbs(count int) []Verb {
	if count <= len(fewSteps) {
		return fewSteps[:count:count]
	}
	verbs := make([]Verb, count)
	for i := 1; i < count; i++ {
		verbs[i] = To
	}
	return verbs
}

var fewSteps = [...]Verb{Move, To, To, To, To, To, To, To}

// Polygon returns the closed path straight through the points.
func Polygon(points ...geom.Point) Path {
	p := Line(points...)
	p.Close()
	return p
}

// Rectangle returns the outline of r, clockwise, with corners rounded by the
// radius in millimetres: no more than half the shorter side, sharp for zero or
// less. An empty rectangle has an empty outline.
func Rectangle(r geom.Rect, radius float64) Path {
	if r.IsEmpty() {
		return Path{}
	}
	radius = math.Min(radius, math.Min(r.Width(), r.Height())/2)
	if radius <= 0 {
		corners := r.Corners()
		return Polygon(corners[:]...)
	}
	var p Path
	inner := r.Grow(-radius)
	for i, corner := range inner.Corners() {
		p.ArcTo(corner, radius, float64(i+2), 1)
	}
	p.Close()
	return p
}

// Circle returns the circle about center with the radius in millimetres.
func Circle(center geom.Point, radius float64) Path {
	p := Arc(center, radius, 0, 4)
	p.Close()
	return p
}

// Arc returns part of a circle about center with the radius in millimetres,
// from the given quarter turn through sweep quarter turns: zero points to the
// right, one downward, and a positive sweep is clockwise as seen.
func Arc(center geom.Point, radius, from, sweep float64) Path {
	var p Path
	p.ArcTo(center, radius, from, sweep)
	return p
}

// AsRectangle returns the upright rectangle the path outlines with sharp
// corners, and false where it is any other path.
func (p Path) AsRectangle() (geom.Rect, bool) {
	if len(p.verbs) != 5 || len(p.points) != 4 || p.verbs[4] != Close {
		return geom.Rect{}, false
	}
	q := p.points
	across := q[0].Y == q[1].Y && q[1].X == q[2].X && q[2].Y == q[3].Y && q[3].X == q[0].X
	down := q[0].X == q[1].X && q[1].Y == q[2].Y && q[2].X == q[3].X && q[3].Y == q[0].Y
	if p.verbs[0] != Move || !across && !down {
		return geom.Rect{}, false
	}
	return geom.RectOf(q[0], q[2]), true
}

// straight reports whether the path has nothing but lines along the axes. Ends
// that differ by less than a thousandth of a millimetre lie on one line.
func (p Path) straight() bool {
	var start, at geom.Point
	left := p.points
	for _, verb := range p.verbs {
		to := start
		switch verb {
		case Curve:
			return false
		case Move, To:
			to, left = left[0], left[1:]
		}
		if verb == Move {
			start = to
		} else if !(min(math.Abs(at.X-to.X), math.Abs(at.Y-to.Y)) < 1e-3) {
			return false
		}
		at = to
	}
	return true
}

// Bounds returns the smallest rectangle that holds the path without regard to
// any pen, empty for an empty path.
func (p Path) Bounds() geom.Rect {
	if !slices.Contains(p.verbs, Curve) {
		return geom.Polyline(p.points).Bounds()
	}
	out := geom.Empty()
	var at geom.Point
	p.Each(func(verb Verb, points []geom.Point) {
		if verb == Close {
			return
		}
		if verb == Curve {
			for _, t := range bends(at, points) {
				out = out.Include(onCurve(at, points, t))
			}
		}
		at = points[len(points)-1]
		out = out.Include(at)
	})
	return out
}

// onCurve returns the point of a cubic Bezier at share t.
func onCurve(from geom.Point, points []geom.Point, t float64) geom.Point {
	s := 1 - t
	out := from.Mul(s * s * s).Add(points[0].Mul(3 * s * s * t))
	return out.Add(points[1].Mul(3 * s * t * t)).Add(points[2].Mul(t * t * t))
}

// bends returns the shares inside a cubic Bezier at which it runs along an
// axis: the roots of its derivative in x and in y.
func bends(from geom.Point, points []geom.Point) []float64 {
	roots := slope(nil, from.X, points[0].X, points[1].X, points[2].X)
	return slope(roots, from.Y, points[0].Y, points[1].Y, points[2].Y)
}

func slope(roots []float64, p0, p1, p2, p3 float64) []float64 {
	a, b, c := p3-3*p2+3*p1-p0, 2*(p2-2*p1+p0), p1-p0
	keep := func(t float64) {
		if t > 0 && t < 1 {
			roots = append(roots, t)
		}
	}
	if math.Abs(a) < 1e-12 {
		keep(-c / b)
		return roots
	}
	root := math.Sqrt(b*b - 4*a*c)
	keep((-b + root) / (2 * a))
	keep((-b - root) / (2 * a))
	return roots
}

// Flatten returns each piece of the path as a chain of straight ones that lies
// within the tolerance of it, in millimetres. A closed piece ends at the point
// it began with.
func (p Path) Flatten(tolerance float64) []geom.Polyline {
	var out []geom.Polyline
	begin := func(at geom.Point) { out = append(out, geom.Polyline{at}) }
	closed := false
	p.Each(func(verb Verb, points []geom.Point) {
		if verb == Move {
			begin(points[0])
			closed = false
			return
		}
		if closed {
			begin(out[len(out)-1][0])
			closed = false
		}
		last := &out[len(out)-1]
		switch verb {
		case To:
			*last = append(*last, points[0])
		case Curve:
			*last = flattenCurve(*last, points, tolerance)
		case Close:
			*last = append(*last, (*last)[0])
			closed = true
		}
	})
	return out
}

// flattenCurve appends points along the curve. The number of equal steps
// follows from the greatest second difference of the control points, which
// bounds how far a chord lies from its arc (a chord's error is at most an
// eighth of the second derivative times the step squared).
func flattenCurve(line geom.Polyline, points []geom.Point, tolerance float64) geom.Polyline {
	from := line[len(line)-1]
	bend := math.Max(
		from.Sub(points[0].Mul(2)).Add(points[1]).Length(),
		points[0].Sub(points[1].Mul(2)).Add(points[2]).Length())
	steps := int(math.Min(maxSteps, math.Ceil(math.Sqrt(0.75*bend/tolerance))))
	for i := 1; i < steps; i++ {
		line = append(line, onCurve(from, points, float64(i)/float64(steps)))
	}
	return append(line, points[2])
}

const maxSteps = 256
