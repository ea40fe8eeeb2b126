package raster

import (
	"image"
	"math"

	"clampline/diagram/draw"
)

// largestStamp is the number of pixels above which a stamp is drawn item by
// item instead of kept.
const largestStamp = 1 << 21

// stamp returns the layers of a placed picture, with ink not yet tinted, and
// false where they would be too large to keep.
func (p *Painter) stamp(s draw.Stamp, scale float64) ([]layer, bool) {
	key := maskKey{kind: stampMask, turn: uint8(s.Turn), text: s.Key, size: scale}
	if layers, ok := p.cache.get(key); ok {
		return layers, true
	}
	upright := draw.Stamp{Picture: s.Picture, Turn: s.Turn, Role: draw.RoleInk}
	bounds := upright.Bounds().Grow(2 / scale)
	if bounds.Width()*bounds.Height()*scale*scale > largestStamp {
		return nil, false
	}
	sheet := stencil{extent: image.Rect(
		int(math.Floor(bounds.Min.X*scale)), int(math.Floor(bounds.Min.Y*scale)),
		int(math.Ceil(bounds.Max.X*scale)), int(math.Ceil(bounds.Max.Y*scale)))}
	picture := upright.Expand()
	draw.Paint(picture, &brush{
		painter: p, surface: &sheet, device: device{scale: scale}, lean: lean(picture, scale),
	})
	for i := range sheet.layers {
		sheet.layers[i].mask = trimmed(sheet.layers[i].mask)
	}
	p.cache.put(key, sheet.layers)
	return sheet.layers, true
}

// lean returns where in its pixel the middle of the first line of the picture
// lies, which the fills beside it follow.
func lean(picture *draw.Picture, scale float64) float64 {
	for _, item := range picture.Items() {
		if item.Shape != nil && item.Shape.Pen.Draws() {
			return middle(item.Shape.Pen.Width * scale)
		}
	}
	return 0
}

// stencil collects coverage in layers, a new one where the role changes.
type stencil struct {
	extent image.Rectangle
	layers []layer
}

var _ surface = (*stencil)(nil)

func (s *stencil) bounds() image.Rectangle { return s.extent }

func (s *stencil) opaque(draw.Role) bool { return true }

// layer returns the mask that takes the role's coverage.
func (s *stencil) layer(role draw.Role) *image.Alpha {
	if last := len(s.layers) - 1; last >= 0 && s.layers[last].role == role {
		return s.layers[last].mask
	}
	s.layers = append(s.layers, layer{role, image.NewAlpha(s.extent)})
	return s.layers[len(s.layers)-1].mask
}

func (s *stencil) rect(role draw.Role, r image.Rectangle, cover uint8) {
	mask := s.layer(role)
	r = r.Intersect(s.extent)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := mask.Pix[mask.PixOffset(r.Min.X, y):][:r.Dx()]
		for i := range row {
			row[i] = join(row[i], cover)
		}
	}
}

func (s *stencil) blend(role draw.Role, mask *image.Alpha, at image.Point) {
	overlay(s.layer(role), mask.Rect.Add(at), mask, mask.Rect.Min)
}
