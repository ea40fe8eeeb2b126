package draw

import (
	"strings"

	"clampline/diagram/geom"
)

// Clip returns what of the picture lies in the window, its groups kept. Lines and
// fills end at its edge; of a text that the edge crosses the whole letters inside
// stay, and nothing where it is crossed from above or below. Images that are
// crossed are left out.
func Clip(picture *Picture, window geom.Rect) *Picture {
	out := NewPicture()
	Paint(picture, &clipper{out, window})
	return out
}

// clipper is the painter that records what lies in the window.
type clipper struct {
	to     *Picture
	window geom.Rect
}

var (
	_ Placer = (*clipper)(nil)
	_ Imager = (*clipper)(nil)
)

func (c *clipper) Begin(id string) { c.to.Begin(id) }
func (c *clipper) End()            { c.to.End() }

// whole reports whether all of the bounds lie in the window.
func (c *clipper) whole(bounds geom.Rect) bool { return c.window.Holds(bounds) }

func (c *clipper) Shape(s Shape) {
	bounds := s.Bounds()
	switch {
	case c.whole(bounds):
		c.to.Shape(s)
		return
	case !c.window.Overlaps(bounds):
		return
	}
	if s.Fill != RoleNone {
		for _, line := range s.Path.Flatten(flatness) {
			if inside := c.polygon(line); len(inside) > 2 {
				c.to.Fill(Polygon(inside...), s.Fill)
			}
		}
	}
	if s.Pen.Draws() {
		c.strokes(s)
	}
}

// strokes draws the pieces of the stroke whose middle lies in the window, less half
// the width of the pen, so that its ink stays inside.
func (c *clipper) strokes(s Shape) {
	edge := c.window.Grow(-s.Pen.Reach())
	for _, line := range s.Path.Flatten(flatness) {
		var run geom.Polyline
		end := func() {
			if len(run) > 1 {
				c.to.Stroke(Line(run...), s.Pen)
			}
			run = nil
		}
		for i := 1; i < len(line); i++ {
			a, b, ok := within(edge, line[i-1], line[i])
			if !ok || len(run) > 0 && run[len(run)-1] != a {
				end()
			}
			if !ok {
				continue
			}
			if len(run) == 0 {
				run = geom.Polyline{a}
			}
			run = append(run, b)
		}
		end()
	}
}

// within returns the part of a straight piece that lies in the rectangle, by the
// shares of it at which it crosses each edge.
func within(r geom.Rect, a, b geom.Point) (from, to geom.Point, ok bool) {
	if r.IsEmpty() {
		return a, b, false
	}
	step := b.Sub(a)
	first, last := 0.0, 1.0
	for _, side := range [...]struct{ along, room float64 }{
		{-step.X, a.X - r.Min.X}, {step.X, r.Max.X - a.X}, {-step.Y, a.Y - r.Min.Y}, {step.Y, r.Max.Y - a.Y},
	} {
		switch {
		case side.along == 0 && side.room < 0:
			return a, b, false
		case side.along < 0:
			first = max(first, side.room/side.along)
		case side.along > 0:
			last = min(last, side.room/side.along)
		}
	}
	from, to = a, b
	if first > 0 {
		from = a.Add(step.Mul(first))
	}
	if last < 1 {
		to = a.Add(step.Mul(last))
	}
	return from, to, first < last
}

// polygon returns the part of a filled outline that lies in the window: cut at one
// edge after the other.
func (c *clipper) polygon(line geom.Polyline) geom.Polyline {
	w := c.window
	if last := len(line) - 1; last > 0 && line[last] == line[0] {
		line = line[:last]
	}
	for _, room := range []func(geom.Point) float64{
		func(p geom.Point) float64 { return p.X - w.Min.X }, func(p geom.Point) float64 { return w.Max.X - p.X },
		func(p geom.Point) float64 { return p.Y - w.Min.Y }, func(p geom.Point) float64 { return w.Max.Y - p.Y },
	} {
		line = cutAt(line, room)
	}
	return line
}

// cutAt returns the outline without what has no room on its side of an edge.
func cutAt(line geom.Polyline, room func(geom.Point) float64) geom.Polyline {
	var out geom.Polyline
	for i, p := range line {
		before := line[(i+len(line)-1)%len(line)]
		a, b := room(before), room(p)
		if a < 0 != (b < 0) {
			out = append(out, before.Add(p.Sub(before).Mul(a/(a-b))))
		}
		if b >= 0 {
			out = append(out, p)
		}
	}
	return out
}

func (c *clipper) Text(t Text) {
	bounds := t.Bounds()
	switch {
	case c.whole(bounds):
		c.to.Text(t)
	case bounds.Min.Y >= c.window.Min.Y && bounds.Max.Y <= c.window.Max.Y:
		c.letters(t, bounds.Min.X)
	}
}

// letters writes the letters of a text that lie in the window.
func (c *clipper) letters(t Text, x float64) {
	var kept strings.Builder
	start := x
	for _, r := range t.String {
		next := x + TextWidth(string(r), t.Size, t.Bold)
		if x >= c.window.Min.X && next <= c.window.Max.X {
			if kept.Len() == 0 {
				start = x
			}
			kept.WriteRune(r)
		}
		x = next
	}
	t.At.X, t.Align, t.String = start, Left, kept.String()
	c.to.Text(t)
}

func (c *clipper) Place(s Stamp) {
	bounds := s.Bounds()
	switch {
	case c.whole(bounds):
		c.to.place(s)
	case c.window.Overlaps(bounds):
		Paint(s.Expand(), c)
	}
}

func (c *clipper) Image(i Image) {
	if c.whole(i.Box) {
		c.to.Image(i)
	}
}
