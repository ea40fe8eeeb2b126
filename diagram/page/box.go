package page

import (
	"slices"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Box is a card that is seen first: a title with a figure at its right, and below each
// what explains it. The bar at its left is of the accent's role; RoleNone has none.
type Box struct {
	Title, Value string
	Text, Aside  string
	Accent       draw.Role
}

const (
	boxRadius = 1.2
	boxBar    = 1.8
	boxInset  = 3.0
)

func (b Box) lay(room geom.Point) []piece {
	left := boxInset
	if b.Accent != draw.RoleNone {
		left += boxBar
	}
	width, title := room.X-left-boxInset, Type{Size: 3.4, Bold: true}
	right := min(max(title.width(oneLine(b.Value)), faintType.width(oneLine(b.Aside))), 0.4*width)
	words := width
	if right > 0 {
		words -= right + 4
	}
	upper := []cell{{texts: title.wrap(unit.VisibleLines(b.Title), words), at: left, width: words, t: title},
		{texts: title.wrap(unit.VisibleLines(b.Value), right+1e-6), at: left + width - right, width: right, t: title.aligned(draw.Right)}}
	lower := []cell{{texts: faintType.wrap(unit.VisibleLines(b.Text), words), at: left, width: words, t: faintType},
		{texts: faintType.wrap(unit.VisibleLines(b.Aside), right+1e-6), at: left + width - right, width: right, t: faintType.aligned(draw.Right)}}
	return b.framed(upper, lower, room)
}

// framed returns the card: one piece, or several where it is higher than the room.
func (b Box) framed(upper, lower []cell, room geom.Point) []piece {
	const space = 1.6
	parts := tornRow(upper, room.Y-2*space, 0)
	if len(lower[0].texts)+len(lower[1].texts) > 0 {
		parts = append(parts, tornRow(lower, room.Y-2*space, 0.3)...)
	}
	var out []piece
	for len(parts) > 0 {
		height, n := 2*space, 0
		for n < len(parts) && (n == 0 || height+parts[n].height <= room.Y) {
			height += parts[n].height
			n++
		}
		out = append(out, piece{picture: b.card(room.X, height, parts[:n], space), height: height, before: 2.2})
		parts = parts[n:]
	}
	return out
}

func (b Box) card(width, height float64, parts []piece, y float64) *draw.Picture {
	p := draw.NewPicture()
	outline := geom.RectOf(geom.Pt(0.15, 0.15), geom.Pt(width-0.15, height-0.15))
	p.FillStroke(draw.Rectangle(outline, boxRadius), draw.RoleCard, draw.Pen{Role: draw.RoleGrid, Width: 0.3})
	if b.Accent != draw.RoleNone {
		p.Fill(draw.Rectangle(geom.RectOf(geom.Point{}, geom.Pt(boxBar, height)), 0.6), b.Accent)
	}
	for _, part := range parts {
		p.Append(part.picture, geom.Translate(geom.Pt(0, y)))
		y += part.height
	}
	return p
}

// Figure is a picture in a frame, made smaller where it does not fit, and larger up to
// its own millimetres only.
type Figure struct {
	Picture *draw.Picture
	Title   string  // at the top of the frame
	Caption string  // at its foot
	Height  float64 // of the frame, mm; 0 for what the picture needs
}

func (b Figure) lay(room geom.Point) []piece {
	bounds := geom.Rect{}
	if b.Picture != nil && !b.Picture.Bounds().IsEmpty() {
		bounds = b.Picture.Bounds()
	}
	top, foot := boxInset, boxInset
	caption := bodyType.bold().wrap(unit.VisibleLines(b.Caption), room.X-2*boxInset)
	caption = most(caption, 3, room.X-2*boxInset, bodyType.bold())
	if b.Title != "" {
		top += faintType.line()
	}
	if len(caption) > 0 {
		foot += float64(len(caption))*bodyType.line() + 1
	}
	inner := geom.Pt(room.X-2*boxInset, room.Y-top-foot)
	if b.Height > 0 {
		inner.Y = min(inner.Y, max(10, b.Height-top-foot))
	}
	scale := Fit(geom.Pt(bounds.Width(), bounds.Height()), inner, 1)
	if b.Height <= 0 {
		inner.Y = bounds.Height() * scale
	}
	out := piece{picture: draw.NewPicture(), height: top + inner.Y + foot, before: 2.2}
	frame := geom.RectOf(geom.Pt(0.15, 0.15), geom.Pt(room.X-0.15, out.height-0.15))
	out.picture.Stroke(draw.Rectangle(frame, boxRadius), draw.Pen{Role: draw.RoleGrid, Width: 0.3})
	if b.Picture != nil {
		middle := geom.Pt(room.X/2, top+inner.Y/2)
		out.picture.Append(b.Picture, geom.Scale(scale).Then(geom.Translate(middle.Sub(bounds.Center().Mul(scale)))))
	}
	Write(out.picture, geom.Pt(boxInset, 2+faintType.baseline()), room.X-2*boxInset, oneLine(b.Title), faintType.bold())
	lines(out.picture, geom.Pt(boxInset, out.height-foot+1), room.X-2*boxInset, caption, bodyType.bold())
	return []piece{out}
}

// Image is a PNG or JPEG, such as a photo, in the middle: as high as it is told, or as
// wide as the room allows. What is none takes no room.
type Image struct {
	File   []byte
	Height float64 // mm
}

func (b Image) lay(room geom.Point) []piece {
	p := draw.NewPicture()
	size := drawImage(p, b.File, geom.Point{}, geom.Pt(room.X, min(b.Height, room.Y)))
	if size.X <= 0 {
		return nil
	}
	out := piece{picture: draw.NewPicture(), height: size.Y, before: 2.2}
	out.picture.Append(p, geom.Translate(geom.Pt((room.X-size.X)/2, 0)))
	return []piece{out}
}

// Fit returns the scale at which something fits into room, at most the greatest.
func Fit(size, room geom.Point, most float64) float64 {
	scale := most
	if size.X > 0 {
		scale = min(scale, room.X/size.X)
	}
	if size.Y > 0 {
		scale = min(scale, room.Y/size.Y)
	}
	return max(scale, 0)
}

// Drawn is a picture as it is, its origin at the left margin, of a height, mm: for what
// no other block draws. It is made for the width that it is given.
type Drawn struct {
	Height float64
	Draw   func(width float64) *draw.Picture
}

func (b Drawn) lay(room geom.Point) []piece {
	return []piece{{picture: b.Draw(room.X), height: min(b.Height, room.Y), before: 1.6}}
}

// Beside are blocks in columns beside each other, which stay on one page. Where they are
// higher than one they stand one below the other.
type Beside struct {
	Columns [][]Block
	Weights []float64 // of the widths; nil for equal ones
}

func (b Beside) lay(room geom.Point) []piece {
	const between = 4.0
	weights := b.Weights
	if len(weights) != len(b.Columns) {
		weights = make([]float64, len(b.Columns))
		for i := range weights {
			weights[i] = 1
		}
	}
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	whole := room.X - between*float64(len(b.Columns)-1)
	out, x := piece{picture: draw.NewPicture(), before: 2.2}, 0.0
	for i, column := range b.Columns {
		width := whole * weights[i] / sum
		picture, height := stack(geom.Pt(width, room.Y), column)
		out.picture.Append(picture, geom.Translate(geom.Pt(x, 0)))
		out.height, x = max(out.height, height), x+width+between
	}
	if out.height > room.Y {
		return Together(slices.Concat(b.Columns...)).lay(room)
	}
	return []piece{out}
}
