package draw

import (
	"math"

	"clampline/diagram/geom"
)

// Verb is one step of a path.
type Verb uint8

// The steps, with the number of points each takes.
const (
	Move  Verb = iota // begin at a point: 1
	To                // straight to a point: 1
	Curve             // cubic Bezier by two control points to a point: 3
	Close             // straight back to the beginning: 0
)

func (v Verb) points() int { return [...]int{1, 1, 3, 0}[v] }

// Path is a chain of straight and curved pieces, or several. The zero value is
// the empty path. A path handed to a picture is shared, not copied: build it
// first, then draw it.
type Path struct {
	verbs  []Verb
	points []geom.Point
}

// MoveTo begins a new piece at p.
func (p *Path) MoveTo(to geom.Point) { p.add(Move, to) }

// LineTo goes straight to the given point; on an empty path it begins there.
func (p *Path) LineTo(to geom.Point) {
	if p.IsEmpty() {
		p.MoveTo(to)
		return
	}
	p.add(To, to)
}

// CurveTo goes by a cubic Bezier with the two control points to the given
// point; an empty path begins at the first of them.
func (p *Path) CurveTo(control1, control2, to geom.Point) {
	if p.IsEmpty() {
		p.MoveTo(control1)
	}
	p.add(Curve, control1, control2, to)
}

// Close goes straight back to where the piece began.
func (p *Path) Close() {
	if !p.IsEmpty() {
		p.add(Close)
	}
}

// ArcTo goes along a circle about center, from its point at quarter turn from
// through sweep quarter turns: zero points to the right, one downward, and a
// positive sweep is clockwise as seen. It is joined by a straight line to what
// comes before.
func (p *Path) ArcTo(center geom.Point, radius, from, sweep float64) {
	at := func(turn float64) geom.Point { return onCircle(center, radius, turn) }
	if start := at(from); p.IsEmpty() || p.points[len(p.points)-1] != start {
		p.LineTo(start)
	}
	pieces := math.Min(math.Ceil(math.Abs(sweep)), 4)
	step := sweep / pieces
	for i := 0.0; i < pieces; i++ {
		a, b := from+i*step, from+(i+1)*step
		reach := radius * 4 / 3 * math.Tan(step*math.Pi/8)
		c1, c2 := onCircle(geom.Point{}, reach, a+1), onCircle(geom.Point{}, reach, b-1)
		p.CurveTo(at(a).Add(c1), at(b).Add(c2), at(b))
	}
}

// onCircle returns the point of a circle at the given quarter turn. At whole
// turns it is exact, so that symbols stay on their grid.
func onCircle(center geom.Point, radius, turn float64) geom.Point {
	if turn == math.Trunc(turn) {
		return center.Add(geom.Turn(int(math.Mod(turn, 4))).Apply(geom.Pt(radius, 0)))
	}
	sin, cos := math.Sincos(turn * math.Pi / 2)
	return center.Add(geom.Pt(radius*cos, radius*sin))
}

// Append adds the pieces of q.
func (p *Path) Append(q Path) {
	p.verbs = append(p.verbs, q.verbs...)
	p.points = append(p.points, q.points...)
}

func (p *Path) add(verb Verb, points ...geom.Point) {
	p.verbs = append(p.verbs, verb)
	p.points = append(p.points, points...)
}

// IsEmpty reports whether the path has no step.
func (p Path) IsEmpty() bool { return len(p.verbs) == 0 }

// Each calls visit for each step with the points it takes, which are the
// path's own: visit must not change or keep them.
func (p Path) Each(visit func(verb Verb, points []geom.Point)) {
	at := 0
	for _, verb := range p.verbs {
		next := at + verb.points()
		visit(verb, p.points[at:next])
		at = next
	}
}

// Transform returns the path as m maps it.
func (p Path) Transform(m geom.Affine) Path {
	out := Path{verbs: p.verbs[:len(p.verbs):len(p.verbs)], points: make([]geom.Point, len(p.points))}
	for i, point := range p.points {
		out.points[i] = m.Apply(point)
	}
	return out
}
