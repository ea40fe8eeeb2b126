package raster

import (
	"image"
	"math"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// brush draws items on a surface.
type brush struct {
	painter *Painter
	surface surface
	device  device
	// loose lets a path that needs a mask move by part of a pixel, so that the
	// same path elsewhere uses the same mask. In a stamp paths keep their places
	// to each other.
	loose bool
	// lean is half a pixel where fills belong to lines an odd number of pixels
	// wide, whose middle lies between two whole positions.
	lean float64
	// chain and strands are kept from item to item for their memory.
	chain   []image.Point
	strands []draw.Strand
}

var (
	_ draw.Placer = (*brush)(nil)
	_ draw.Imager = (*brush)(nil)
)

// Begin and End have no meaning in an image.
func (b *brush) Begin(string) {}

// End has no meaning in an image.
func (b *brush) End() {}

// Shape fills, then strokes.
func (b *brush) Shape(s draw.Shape) {
	if s.Fill != draw.RoleNone {
		b.fill(s)
	}
	b.strands = s.AppendStrands(b.strands[:0])
	for _, strand := range b.strands {
		b.stroke(s.Pen.Role, strand)
	}
}

func (b *brush) fill(s draw.Shape) {
	if r, ok := s.Path.AsRectangle(); ok {
		b.surface.rect(s.Fill, b.block(r), 255)
		return
	}
	lean := b.lean
	if s.Pen.Draws() {
		lean = middle(s.Pen.Width * b.device.scale)
	}
	b.mask(s.Fill, outline{path: s.Path, lean: lean})
}

// block returns the whole pixels of a rectangle, at least one each way.
func (b *brush) block(r geom.Rect) image.Rectangle {
	from, to := b.device.pixel(r.Min), b.device.pixel(r.Max)
	return image.Rect(from.X, from.Y, max(to.X, from.X+1), max(to.Y, from.Y+1))
}

func (b *brush) stroke(role draw.Role, strand draw.Strand) {
	if strand.Straight && b.surface.opaque(role) {
		b.axis(role, strand)
		return
	}
	scale := b.device.scale
	width := strand.Width * scale
	if width >= 0.75 {
		width = math.Round(width)
	}
	b.mask(role, outline{
		path: strand.Path, width: width,
		ink: strand.Ink * scale, gap: strand.Gap * scale, lean: middle(width),
	})
}

// middle returns where in its pixel the middle of a line of the given width in
// pixels lies.
func middle(width float64) float64 {
	pixels, _ := thickness(width)
	return float64(pixels&1) / 2
}

// Text copies the label's mask.
func (b *brush) Text(t draw.Text) {
	size := t.Size * b.device.scale
	if size < b.painter.legible || size > largestText {
		return
	}
	mask, width := b.painter.label(t, size)
	at := b.device.pixel(t.At)
	b.surface.blend(t.Role, mask, image.Pt(at.X-whole(width*t.Align.Share()), at.Y))
}

// Place copies the masks of a stamp, or draws it item by item where they would
// be larger than is worth keeping.
func (b *brush) Place(s draw.Stamp) {
	layers, ok := b.painter.stamp(s, b.device.scale)
	if !ok {
		draw.Paint(s.Expand(), b)
		return
	}
	at := b.device.pixel(s.At)
	for _, l := range layers {
		role := l.role
		if role == draw.RoleInk {
			role = s.Role
		}
		b.surface.blend(role, l.mask, at)
	}
}
