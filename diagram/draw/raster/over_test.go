package raster

import (
	"image"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

func TestPaintOverKeepsWhatIsThere(t *testing.T) {
	view := View{Scale: 3, Origin: geom.Pt(-5, -5), GridPitch: 3}
	both, under, over := draw.NewPicture(), sheet(20), sample()
	both.Append(under, geom.Identity())
	both.Append(over, geom.Identity())
	got, painter := image.NewRGBA(image.Rect(0, 0, 200, 150)), New()
	painter.Paint(got, under, view, draw.Light())
	painter.PaintOver(got, over, view, draw.Light())
	if !equal(got, painted(both, view, 200, 150)) {
		t.Error("two pictures painted one over the other differ from one of both")
	}
	before := append([]uint8(nil), got.Pix...)
	painter.PaintOver(got, over, View{}, draw.Light())
	if string(before) != string(got.Pix) {
		t.Error("a view without a scale painted something")
	}
}
