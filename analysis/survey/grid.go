package survey

import (
	"cmp"
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// Sizes on the page, mm.
const (
	labelSize   = 2.3
	valueSize   = 3.2
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

// canvas is a page that is being drawn on, from the top down.
type canvas struct {
	picture     *draw.Picture
	round       page.Frame // what is alike on all pages
	convention  unit.Convention
	left, right float64
	bottom      float64
	y           float64
}

// newCanvas begins a page about a board.
func newCanvas(s Sheet, kind string) *canvas {
	frame := frameOf(s, kind)
	picture, room := frame.Begin()
	return &canvas{
		picture: picture, round: frame, convention: s.Convention,
		left: room.Min.X, right: room.Max.X, bottom: room.Max.Y, y: room.Min.Y,
	}
}

// frameOf returns what stands round the page of a board.
func frameOf(s Sheet, kind string) page.Frame {
	head := page.HeadOf(s.info, kind+" · "+s.Title+" · plan "+s.Plan, s.Name)
	head.Site = cmp.Or(s.Site, strings.Repeat("_", 26))
	head.Date, head.DrawnBy = "", "" // those of the survey are asked for
	return page.Frame{Paper: page.Usual(s.Convention), Head: head, Caution: cautionText(s.Convention), Tight: true}
}

func (v *canvas) width() float64 { return v.right - v.left }

var (
	labelStyle   = page.Type{Size: labelSize, Role: draw.RoleFaint}
	valueStyle   = page.Type{Size: valueSize}
	drawingStyle = page.Type{Size: valueSize, Role: draw.RoleFaint}
)

// fromDrawing stands before what the drawing says, where the record is silent.
const fromDrawing = "▸ "

func (v *canvas) write(at geom.Point, width float64, text string, t page.Type) {
	page.Write(v.picture, at, width, text, t)
}

// section begins a group of rows.
func (v *canvas) section(title string) {
	v.y += sectionGap + sectionSize
	v.write(geom.Pt(v.left, v.y), v.width(), title, page.Type{Size: sectionSize, Bold: true})
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
	const number, text = 22, 31
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
		v.write(geom.Pt(box.Max.X-inset, at.Y), width, line.hint.in(v.convention), page.Type{Size: labelSize, Role: draw.RoleFaint, Align: draw.Right})
	}
}

// squares draws squares with their words from a place on, closer where they
// would not fit.
func (v *canvas) squares(at geom.Point, right float64, line Line, options []string) {
	const step = tickSide + wordGap // from a square to its word
	spare := right - at.X - widthOf(options, 0)
	between := min(5, spare/float64(max(1, len(options)-1)))
	for _, o := range options {
		page.Square(v.picture, at, tickSide, line.Value == o)
		if line.Value == "" && line.Drawing == o {
			v.write(at.Add(geom.Pt(-1.9, -0.1)), 2, "▸", page.Type{Size: 2.6, Role: draw.RoleFaint})
		}
		v.write(at.Add(geom.Pt(step, 0)), right-at.X-step, o, page.Type{Size: wordSize})
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
