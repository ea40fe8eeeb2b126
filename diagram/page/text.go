package page

import (
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// Type is how a text is set.
type Type struct {
	Size  float64 // of the em, mm
	Role  draw.Role
	Bold  bool
	Align draw.Align
	tight bool // its lines stand closer
}

// The types of a page.
var (
	titleType   = Type{Size: 5.4, Bold: true}
	headingType = Type{Size: 4.2, Bold: true}
	bodyType    = Type{Size: 3.2}
	faintType   = Type{Size: 2.7, Role: draw.RoleFaint}
	footType    = Type{Size: 2.2, Role: draw.RoleFaint, tight: true}
)

const (
	pitch     = 1.42 // from line to line, of the size
	tight     = 1.25 // that of what is seldom read
	leastType = 2.2  // to which a text that must stay on its line shrinks, mm: above 6 points
)

func (t Type) bold() Type {
	t.Bold, t.Role = true, draw.RoleInk
	return t
}

func (t Type) aligned(a draw.Align) Type {
	t.Align = a
	return t
}

func (t Type) scaled(by float64) Type {
	t.Size *= by
	return t
}

// line is how much a line takes, mm.
func (t Type) line() float64 {
	if t.tight {
		return t.Size * tight
	}
	return t.Size * pitch
}

// baseline is how far below the top of its line a text stands, mm.
func (t Type) baseline() float64 {
	return (t.line() + draw.Ascent(t.Size) - draw.Descent(t.Size)) / 2
}

func (t Type) width(text string) float64 { return draw.TextWidth(text, t.Size, t.Bold) }

func (t Type) wrap(text string, width float64) []string {
	return symbol.Wrap(text, t.Size, t.Bold, width)
}

// Write writes a text on one line no wider than width, its baseline at a point: smaller
// where it must be, and cut where that is not enough.
func Write(p *draw.Picture, at geom.Point, width float64, text string, t Type) {
	if wide := t.width(text); wide > width {
		t.Size = max(t.Size*width/wide, min(t.Size, max(leastType, t.Size/2)))
		text = cut(text, width, t)
	}
	p.Text(draw.Text{At: at, Size: t.Size, Role: t.Role, Bold: t.Bold, Align: t.Align, String: text})
}

// cut returns as much of a text as fits, with dots where something is missing.
func cut(text string, width float64, t Type) string {
	if t.width(text) <= width+1e-9 {
		return text
	}
	left := width - t.width("…")
	for i, letter := range text {
		if left -= t.width(string(letter)); left < 0 {
			return strings.TrimSpace(text[:i]) + "…"
		}
	}
	return text
}

// lines writes lines one below the other from the top left corner down, each in its
// width at its alignment, and returns how much they take.
func lines(p *draw.Picture, at geom.Point, width float64, texts []string, t Type) float64 {
	x := at.X + t.Align.Share()*width
	for i, text := range texts {
		p.Text(draw.Text{At: geom.Pt(x, at.Y+float64(i)*t.line()+t.baseline()), Size: t.Size, Role: t.Role, Bold: t.Bold, Align: t.Align, String: text})
	}
	return float64(len(texts)) * t.line()
}

// most returns the first lines of a text, of which the last says so where there are more.
func most(texts []string, count int, width float64, t Type) []string {
	if len(texts) <= count {
		return texts
	}
	out := append([]string(nil), texts[:count]...)
	out[count-1] = cut(out[count-1]+" "+texts[count], width, t)
	return out
}

// rule draws a line from left to right.
func rule(p *draw.Picture, left, right, y float64, role draw.Role, width float64) {
	p.Stroke(draw.Line(geom.Pt(left, y), geom.Pt(right, y)), draw.Pen{Role: role, Width: width})
}

// Square draws a square to tick whose foot stands on a baseline, with a cross where it
// is ticked.
func Square(p *draw.Picture, at geom.Point, side float64, ticked bool) {
	box := geom.RectOf(at.Add(geom.Pt(0, 0.1*side-side)), at.Add(geom.Pt(side, 0.1*side)))
	p.Stroke(draw.Rectangle(box, 0), draw.Pen{Width: 0.25})
	if ticked {
		inner, pen := box.Grow(-0.2*side), draw.Pen{Width: 0.4}
		p.Stroke(draw.Line(inner.Min, inner.Max), pen)
		p.Stroke(draw.Line(geom.Pt(inner.Min.X, inner.Max.Y), geom.Pt(inner.Max.X, inner.Min.Y)), pen)
	}
}
