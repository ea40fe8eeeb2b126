package raster

import (
	"image"
	"image/color"

	"clampline/diagram/draw"
)

// stripPixels is how many pixels of an exported image are held at a time: 32 MB.
const stripPixels = 8 << 20

// strips is a picture as an image of which only some rows are held at a time, so
// that an export takes no more memory than a window. It is read from the top down;
// going back costs a strip painted again.
type strips struct {
	painter *Painter
	picture *draw.Picture
	palette draw.Palette
	view    View
	bounds  image.Rectangle
	height  int // of a strip
	rows    *image.RGBA
	now     pixel
}

var _ image.Image = (*strips)(nil)

// pixel is the colour that was read last; it is handed out by its address, lest
// each pixel of an image take memory of its own.
type pixel color.RGBA

// RGBA is that of color.Color.
func (p *pixel) RGBA() (r, g, b, a uint32) { return color.RGBA(*p).RGBA() }

// simplest returns the image itself where one strip is all of it: that is encoded
// twice as fast.
func (s *strips) simplest() image.Image {
	if s.height < s.bounds.Dy() {
		return s
	}
	s.paint(0)
	return s.rows
}

// ColorModel is that of what is painted.
func (s *strips) ColorModel() color.Model { return color.RGBAModel }

// Bounds begin at the origin.
func (s *strips) Bounds() image.Rectangle { return s.bounds }

// Opaque tells the encoder that there is no transparency: paper is everywhere.
func (s *strips) Opaque() bool { return true }

// At returns the colour of a pixel, which holds until the next call.
func (s *strips) At(x, y int) color.Color {
	if s.rows == nil || y < s.rows.Rect.Min.Y || y >= s.rows.Rect.Max.Y {
		s.paint(y - y%s.height)
	}
	at := s.rows.PixOffset(x, y)
	s.now = pixel{s.rows.Pix[at], s.rows.Pix[at+1], s.rows.Pix[at+2], s.rows.Pix[at+3]}
	return &s.now
}

// paint holds the strip that begins at a row.
func (s *strips) paint(top int) {
	s.rows = image.NewRGBA(image.Rect(0, top, s.bounds.Dx(), min(top+s.height, s.bounds.Dy())))
	view := s.view
	view.Origin.Y += float64(top) / view.Scale
	s.painter.Paint(s.rows, s.picture, view, s.palette)
}
