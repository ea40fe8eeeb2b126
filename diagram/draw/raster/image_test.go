package raster

import (
	"image"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// An image fills its box, what is clear in it shows the paper, and what is no image
// draws nothing.
func TestImage(t *testing.T) {
	box := geom.RectOf(geom.Pt(2, 2), geom.Pt(10, 6))
	p := draw.NewPicture()
	p.Image(draw.Image{Data: string(drawtest.Logo(20, 10)), Box: box})
	p.Image(draw.Image{Data: "no image", Box: box.Move(geom.Pt(0, 10))})
	dst := image.NewRGBA(image.Rect(0, 0, 100, 200))
	New().Paint(dst, p, View{Scale: 10}, draw.Light())
	paper := draw.Light()[draw.RolePaper]
	for _, row := range []struct {
		x, y int
		red  bool
	}{{25, 25, true}, {55, 55, true}, {95, 55, false}, {10, 25, false}, {25, 65, false}, {25, 125, false}} {
		got := dst.RGBAAt(row.x, row.y)
		if isRed := got.R == 255 && got.G == 0 && got.B == 0; isRed != row.red || !row.red && got.G != paper.G {
			t.Errorf("at %d,%d: got %v, want red %v", row.x, row.y, got, row.red)
		}
	}
}
