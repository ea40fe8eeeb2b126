package raster

import (
	"image"
	"image/color"

	"clampline/diagram/draw"
)

// surface is what a brush marks: the image itself, or the masks of a stamp.
type surface interface {
	bounds() image.Rectangle
	// opaque reports whether covering a pixel twice with the role is covering it
	// once.
	opaque(role draw.Role) bool
	// rect covers whole pixels, as strongly as cover says.
	rect(role draw.Role, r image.Rectangle, cover uint8)
	// blend covers pixels as strongly as the mask moved by at says.
	blend(role draw.Role, mask *image.Alpha, at image.Point)
}

// screen is the image that is painted, with each role's colour premultiplied
// by its alpha.
type screen struct {
	image   *image.RGBA
	colours [draw.RoleCount]color.RGBA
}

var _ surface = (*screen)(nil)

func newScreen(dst *image.RGBA, palette *draw.Palette) screen {
	s := screen{image: dst}
	for role, c := range palette {
		r, g, b, a := c.RGBA()
		s.colours[role] = color.RGBA{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8), A: uint8(a >> 8)}
	}
	return s
}

func (s *screen) bounds() image.Rectangle { return s.image.Rect }

func (s *screen) opaque(role draw.Role) bool { return s.colours[role].A == 255 }

// clear fills the whole image by copying what is filled already, twice as much
// each time.
func (s *screen) clear(role draw.Role) {
	dst := s.image
	row := 4 * dst.Rect.Dx()
	if row == 0 || dst.Rect.Dy() == 0 {
		return
	}
	first := dst.Pix[:row]
	fillRow(first, s.colours[role])
	if dst.Stride != row {
		for y := 1; y < dst.Rect.Dy(); y++ {
			copy(dst.Pix[y*dst.Stride:][:row], first)
		}
		return
	}
	all := dst.Pix[:row*dst.Rect.Dy()]
	for done := row; done < len(all); done *= 2 {
		copy(all[done:], all[:done])
	}
}

func (s *screen) rect(role draw.Role, r image.Rectangle, cover uint8) {
	r = r.Intersect(s.image.Rect)
	colour := s.colours[role]
	if cover < 255 || colour.A < 255 {
		s.tint(colour, r, cover)
		return
	}
	at := s.image.PixOffset(r.Min.X, r.Min.Y)
	for range r.Dy() {
		fillRow(s.image.Pix[at:at+4*r.Dx()], colour)
		at += s.image.Stride
	}
}

// tint covers whole pixels with part of a colour.
func (s *screen) tint(colour color.RGBA, r image.Rectangle, cover uint8) {
	tint := newTint(pair(colour), cover)
	at := s.image.PixOffset(r.Min.X, r.Min.Y)
	for range r.Dy() {
		tintRow(s.image.Pix[at:at+4*r.Dx()], tint)
		at += s.image.Stride
	}
}

func (s *screen) blend(role draw.Role, mask *image.Alpha, at image.Point) {
	r := mask.Rect.Add(at).Intersect(s.image.Rect)
	colour := s.colours[role]
	from := mask.PixOffset(r.Min.X-at.X, r.Min.Y-at.Y)
	to := s.image.PixOffset(r.Min.X, r.Min.Y)
	for range r.Dy() {
		blendRow(s.image.Pix[to:to+4*r.Dx()], mask.Pix[from:from+r.Dx()], colour)
		from += mask.Stride
		to += s.image.Stride
	}
}
