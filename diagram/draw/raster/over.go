package raster

import (
	"image"

	"clampline/diagram/draw"
)

// PaintOver draws the part of the picture that the view shows over what dst
// already holds: no ground is laid and no grid drawn. Otherwise it is Paint.
func (p *Painter) PaintOver(dst *image.RGBA, picture *draw.Picture, view View, palette draw.Palette) {
	if !view.valid() {
		return
	}
	p.cache.frame++
	p.screen = newScreen(dst, &palette)
	p.strokes(dst, picture, view)
	p.screen.image = nil
}
