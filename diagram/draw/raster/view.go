package raster

import (
	"image"
	"math"

	"clampline/diagram/geom"
)

// View is the part of the sheet an image shows.
type View struct {
	Scale     float64    // pixels to the millimetre
	Origin    geom.Point // of the sheet, at the top left corner of the image
	GridPitch float64    // of the dots, in millimetres; zero for no grid
}

// Sheet returns the point of the sheet under a pixel position of the image.
func (v View) Sheet(x, y float64) geom.Point {
	return geom.Pt(x, y).Mul(1 / v.Scale).Add(v.Origin)
}

// Pixel returns the position of a point of the sheet in the image, in pixels
// from its top left corner. What is painted lies within half a pixel of it.
func (v View) Pixel(p geom.Point) (x, y float64) {
	at := p.Sub(v.Origin).Mul(v.Scale)
	return at.X, at.Y
}

// valid reports whether anything can be painted in this view: it has a scale,
// and its pixels can be counted from the sheet's origin.
func (v View) valid() bool {
	at := math.Max(math.Abs(v.Origin.X), math.Abs(v.Origin.Y)) * v.Scale
	return v.Scale > 0 && !math.IsInf(v.Scale, 0) && at < far/2
}

// snapped returns the view with its origin on a whole pixel, where it is painted.
func (v View) snapped() View {
	v.Origin = geom.Pt(float64(whole(v.Origin.X*v.Scale)), float64(whole(v.Origin.Y*v.Scale))).Mul(1 / v.Scale)
	return v
}

// far is where positions in pixels end, so that sums of two still fit 32 bits.
const far = 1 << 28

// window returns the part of the sheet that reaches into the image, with room
// for rounding to pixels.
func (v View) window(size image.Point) geom.Rect {
	return geom.Rect{Min: v.Origin, Max: v.Sheet(float64(size.X), float64(size.Y))}.Grow(2 / v.Scale)
}

// device maps the sheet to the pixels of a surface: scale, then a step of whole
// pixels.
type device struct {
	scale float64
	step  image.Point
}

// pixel returns the whole pixel position nearest to a point of the sheet.
func (d device) pixel(p geom.Point) image.Point {
	return image.Pt(whole(p.X*d.scale), whole(p.Y*d.scale)).Add(d.step)
}

// whole rounds to the nearest whole number, halves upward, so that rounding is
// the same wherever the origin lies. Far outside any image it stops.
func whole(v float64) int {
	v = math.Floor(v + 0.5)
	if v > far {
		return far
	}
	if !(v > -far) {
		return -far
	}
	return int(v)
}

// thickness returns the width in whole pixels of a line of the given width in
// pixels, and its coverage: a line much finer than a pixel is drawn as one
// pixel of less than full strength.
func thickness(width float64) (pixels int, cover uint8) {
	if width >= 0.75 {
		return whole(width), 255
	}
	return 1, uint8(255 * math.Max(width, 0.3))
}

// device returns how millimetres of the sheet lie on the pixels of dst. The
// corner is a whole pixel, so that what is drawn once may be shifted.
func (v View) device(dst *image.RGBA) device {
	return device{v.Scale, dst.Rect.Min.Sub(image.Pt(whole(v.Origin.X*v.Scale), whole(v.Origin.Y*v.Scale)))}
}
