package raster

import (
	"image"

	"clampline/diagram/draw"
)

// Painter paints pictures and keeps what it can use again: masks of stamps,
// labels and paths at the last few scales. It is not safe for concurrent use.
// New is the only way to make one.
type Painter struct {
	cache    cache
	faces    map[faceKey]*face
	legible  float64 // least size of text that is drawn, in pixels
	screen   screen
	brush    brush
	gridCols []int
	logo     logo
}

const (
	// maskBudget is how many bytes of masks are kept: three or four scales of a
	// full window.
	maskBudget = 48 << 20
	// legibleOnScreen is the least size of text on screen, in pixels; smaller
	// is grey noise.
	legibleOnScreen = 4
)

// New returns a painter for the screen, which leaves out text too small to
// read.
func New() *Painter { return newPainter(maskBudget, legibleOnScreen) }

func newPainter(budget int, legible float64) *Painter {
	return &Painter{
		cache:   cache{kept: map[maskKey]*kept{}, budget: budget},
		faces:   map[faceKey]*face{},
		legible: legible,
	}
}

// Paint fills the image with paper, the grid if the view has one, and the part
// of the picture that the view shows. A view that is not a sensible one (no
// scale, not a number) shows paper.
func (p *Painter) Paint(dst *image.RGBA, picture *draw.Picture, view View, palette draw.Palette) {
	p.cache.frame++
	p.screen = newScreen(dst, &palette)
	p.screen.clear(draw.RolePaper)
	if !view.valid() {
		return
	}
	p.grid(view, view.device(dst))
	p.strokes(dst, picture, view)
	p.screen.image = nil
}

// strokes draws what the view shows of the picture.
func (p *Painter) strokes(dst *image.RGBA, picture *draw.Picture, view View) {
	p.brush = brush{
		painter: p, surface: &p.screen, device: view.device(dst), loose: true,
		chain: p.brush.chain, strands: p.brush.strands,
	}
	draw.PaintWithin(picture, view.window(dst.Rect.Size()), &p.brush)
}
