package raster

import (
	"image"
	"math"

	"clampline/diagram/draw"
)

// leastPitch is the distance of grid dots in pixels below which there is no
// grid.
const leastPitch = 6

// grid draws a dot at each point of the grid that is in the image.
func (p *Painter) grid(view View, to device) {
	pitch := view.GridPitch * view.Scale
	if !(pitch >= leastPitch) || math.IsInf(pitch, 0) {
		return
	}
	dot := max(1, whole(view.Scale/6))
	bounds := p.screen.bounds()
	p.gridCols = p.gridCols[:0]
	for x := range stops(bounds.Min.X, bounds.Max.X, to.step.X, pitch) {
		p.gridCols = append(p.gridCols, x-dot/2)
	}
	for y := range stops(bounds.Min.Y, bounds.Max.Y, to.step.Y, pitch) {
		y -= dot / 2
		for _, x := range p.gridCols {
			p.screen.rect(draw.RoleGrid, image.Rect(x, y, x+dot, y+dot), 255)
		}
	}
}

// stops goes through the multiples of the pitch, in pixels and moved by step,
// from one pixel to another.
func stops(from, to, step int, pitch float64) func(yield func(int) bool) {
	return func(yield func(int) bool) {
		for i := math.Floor(float64(from-step) / pitch); ; i++ {
			at := whole(i*pitch) + step
			if at > to || !yield(at) {
				return
			}
		}
	}
}
