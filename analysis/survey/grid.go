package survey

import (
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Sizes on the page, mm.
const (
	sideMargin  = 12.0
	topMargin   = 10.0
	labelSize   = 2.3
	valueSize   = 3.2
	smallSize   = 2.1 // of the cautions
	smallPitch  = 2.75
	leastSize   = 2.0 // to which a value shrinks before it is cut
	inset       = 1.2 // of text from the frame of its box
	frameWidth  = 0.2
	tickSide    = 2.6
	pointerRoom = 1.4 // before the first square
	wordGap     = 1.0 // from a square to its word
	wordSize    = 2.7 // of that
	rowHeight   = 9.2
	sectionGap  = 2.0
	blockGap    = 1.5 // between protectors
	sectionSize = 3.0
)

// sheet of paper that is being drawn on, from the top down.
type canvas struct {
	picture     *draw.Picture
	convention  unit.Convention
	left, right float64
	bottom      float64
	y           float64
	number      geom.Point // where the number of the page stands
}

func newCanvas(c unit.Convention) *canvas {
	paper := Paper(c)
	return &canvas{
		picture: draw.NewPicture(), convention: c,
		left: sideMargin, right: paper.X - sideMargin, bottom: paper.Y - topMargin, y: topMargin,
	}
}

func (v *canvas) width() float64 { return v.right - v.left }

// style is how a text is set.
type style struct {
	size  float64
	role  draw.Role
	bold  bool
	align draw.Align
}

var (
	labelStyle   = style{size: labelSize, role: draw.RoleFaint}
	valueStyle   = style{size: valueSize}
	drawingStyle = style{size: valueSize, role: draw.RoleFaint}
)

// fromDrawing stands before what the drawing says, where the record is silent.
const fromDrawing = "▸ "

// write writes a text on one line no wider than width: smaller where it must be,
// and cut where that is not enough.
func (v *canvas) write(at geom.Point, width float64, text string, s style) {
	if wide := draw.TextWidth(text, s.size, s.bold); wide > width {
		s.size = max(s.size*width/wide, min(s.size, max(leastSize, s.size/2)))
		text = cut(text, width, s)
	}
	v.picture.Text(draw.Text{At: at, Size: s.size, Role: s.role, Bold: s.bold, Align: s.align, String: text})
}

// cut returns as much of a text as fits, with dots where something is missing.
func cut(text string, width float64, s style) string {
	if draw.TextWidth(text, s.size, s.bold) <= width+1e-9 {
		return text
	}
	left := width - draw.TextWidth("…", s.size, s.bold)
	for i, letter := range text {
		if left -= draw.TextWidth(string(letter), s.size, s.bold); left < 0 {
			return strings.TrimSpace(text[:i]) + "…"
		}
	}
	return text
}

// section begins a group of rows.
func (v *canvas) section(title string) {
	v.y += sectionGap + sectionSize
	v.write(geom.Pt(v.left, v.y), v.width(), title, style{size: sectionSize, bold: true})
	v.y += 1.2
}

// frame draws a box.
func (v *canvas) frame(left, right, top, bottom float64) geom.Rect {
	box := geom.RectOf(geom.Pt(left, top), geom.Pt(right, bottom))
	v.picture.Stroke(draw.Rectangle(box, 0), draw.Pen{Width: frameWidth})
	return box
}

// row draws the boxes of lines beside each other over the whole width.
func (v *canvas) row(lines ...Line) {
	sum, x := 0.0, v.left
	for _, line := range lines {
		sum += v.need(line)
	}
	for _, line := range lines {
		next := x + v.width()*v.need(line)/sum
		box := v.frame(x, next, v.y, v.y+rowHeight)
		v.label(box, line.Label)
		v.value(box, line)
		x = next
	}
	v.y += rowHeight
}

// need returns the width that the box of a line needs, mm.
func (v *canvas) need(line Line) float64 {
	const number, text = 22, 44
	need := draw.TextWidth(line.Label, labelSize, false)
	switch choices := line.choices(v.convention); {
	case len(choices) > 0:
		need = max(need, widthOf(choices, 2.6))
	case line.isNumber():
		need = max(need, number)
	default:
		need = max(need, text+draw.TextWidth(line.hint.in(v.convention), labelSize, false)/2)
	}
	return min(need+2*inset, v.width())
}

// label writes the name of a box at its top.
func (v *canvas) label(box geom.Rect, text string) {
	v.write(geom.Pt(box.Min.X+inset, box.Min.Y+inset+labelSize*0.8), box.Width()-2*inset, text, labelStyle)
}

// value draws squares to tick, or a value, with its unit or what to write where it is
// empty. What is on record is ticked; what the drawing says is pointed at.
func (v *canvas) value(box geom.Rect, line Line) {
	at, width := geom.Pt(box.Min.X+inset, box.Max.Y-1.7), box.Width()-2*inset
	switch choices := line.choices(v.convention); {
	case len(choices) > 0:
		v.squares(at.Add(geom.Pt(pointerRoom, 0)), box.Max.X-inset, line, choices)
	case line.Value != "":
		v.write(at, width, oneLine(line.Value), valueStyle)
	case line.Drawing != "":
		v.write(at, width, fromDrawing+line.Drawing, drawingStyle)
	default:
		v.write(geom.Pt(box.Max.X-inset, at.Y), width, line.hint.in(v.convention), style{size: labelSize, role: draw.RoleFaint, align: draw.Right})
	}
}

// squares draws squares with their words from a place on, closer where they
// would not fit.
func (v *canvas) squares(at geom.Point, right float64, line Line, options []string) {
	const step = tickSide + wordGap // from a square to its word
	spare := right - at.X - widthOf(options, 0)
	between := min(5, spare/float64(max(1, len(options)-1)))
	for _, o := range options {
		v.square(at, line.Value == o)
		if line.Value == "" && line.Drawing == o {
			v.write(at.Add(geom.Pt(-1.9, -0.1)), 2, "▸", style{size: 2.6, role: draw.RoleFaint})
		}
		v.write(at.Add(geom.Pt(step, 0)), right-at.X-step, o, style{size: wordSize})
		at.X += step + draw.TextWidth(o, wordSize, false) + between
	}
}

// widthOf returns the width of squares with their words, so far from each other.
func widthOf(options []string, between float64) float64 {
	width := pointerRoom + between*float64(len(options)-1)
	for _, o := range options {
		width += tickSide + wordGap + draw.TextWidth(o, wordSize, false)
	}
	return width
}

// square draws a square to tick on a baseline.
func (v *canvas) square(at geom.Point, ticked bool) {
	box := geom.RectOf(at.Add(geom.Pt(0, 0.3-tickSide)), at.Add(geom.Pt(tickSide, 0.3)))
	v.picture.Stroke(draw.Rectangle(box, 0), draw.Pen{Width: 0.25})
	if ticked {
		inner := box.Grow(-0.5)
		pen := draw.Pen{Width: 0.4}
		v.picture.Stroke(draw.Line(inner.Min, inner.Max), pen)
		v.picture.Stroke(draw.Line(geom.Pt(inner.Min.X, inner.Max.Y), geom.Pt(inner.Max.X, inner.Min.Y)), pen)
	}
}
