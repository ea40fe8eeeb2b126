package survey

import (
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
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

// paragraph writes lines no wider than width from a baseline down, and returns
// the number of lines. No more than most are written; the last is dotted where
// there would be more.
func (v *canvas) paragraph(at geom.Point, width, pitch float64, most int, text string, s style) int {
	lines := symbol.Wrap(text, s.size, s.bold, width)
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] = cut(lines[most-1]+" …", width, s)
	}
	for i, line := range lines {
		v.picture.Text(draw.Text{At: at.Add(geom.Pt(0, float64(i)*pitch)), Size: s.size, Role: s.role, Bold: s.bold, String: line})
	}
	return len(lines)
}

// section begins a group of rows.
func (v *canvas) section(title string) {
	v.y += sectionGap + sectionSize
	v.write(geom.Pt(v.left, v.y), v.width(), title, style{size: sectionSize, bold: true})
	v.y += 1.2
}

// cell is one box of a row: what it holds, and its share of the width.
type cell struct {
	share float64
	draw  func(box geom.Rect)
}

// row draws boxes beside each other over the whole width.
func (v *canvas) row(height float64, cells ...cell) {
	sum, x := 0.0, v.left
	for _, c := range cells {
		sum += c.share
	}
	for _, c := range cells {
		next := x + v.width()*c.share/sum
		box := geom.RectOf(geom.Pt(x, v.y), geom.Pt(next, v.y+height))
		v.picture.Stroke(draw.Rectangle(box, 0), draw.Pen{Width: frameWidth})
		c.draw(box)
		x = next
	}
	v.y += height
}

// label writes the name of a box at its top.
func (v *canvas) label(box geom.Rect, text string) {
	v.write(geom.Pt(box.Min.X+inset, box.Min.Y+inset+labelSize*0.8), box.Width()-2*inset, text, labelStyle)
}

// baseline returns where the value of a box is written.
func baseline(box geom.Rect) geom.Point { return geom.Pt(box.Min.X+inset, box.Max.Y-1.7) }

// field is a box for a value, with its unit or what to write where it is empty.
func (v *canvas) field(share float64, line Line) cell {
	return cell{share, func(box geom.Rect) {
		v.label(box, line.Label)
		v.value(box, line)
	}}
}

func (v *canvas) value(box geom.Rect, line Line) {
	at, width := baseline(box), box.Width()-2*inset
	switch {
	case line.Value != "":
		v.write(at, width, oneLine(line.Value), valueStyle)
	case line.Drawing != "":
		v.write(at, width, fromDrawing+line.Drawing, drawingStyle)
	default:
		v.write(geom.Pt(box.Max.X-inset, at.Y), width, line.hint.in(v.convention), style{size: labelSize, role: draw.RoleFaint, align: draw.Right})
	}
}

// ticks is a box with squares to tick. What is on record is ticked; what the
// drawing says is pointed at.
func (v *canvas) ticks(share float64, line Line, options ...string) cell {
	return cell{share, func(box geom.Rect) {
		v.label(box, line.Label)
		v.squares(baseline(box).Add(geom.Pt(pointerRoom, 0)), box.Max.X-inset, line, options)
	}}
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
