package raster

import (
	"image"
	"image/color"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// coil is a line that goes all four ways along the axes, with a corner each time.
func coil(at geom.Point) draw.Path {
	points := []geom.Point{{X: 0, Y: 0}, {X: 13, Y: 0}, {X: 13, Y: 9}, {X: 2, Y: 9}, {X: 2, Y: 4}, {X: 8, Y: 4}}
	for i := range points {
		points[i] = points[i].Add(at)
	}
	return draw.Line(points...)
}

// pens strokes a coil, a closed rectangle, a slanted line, a circle and a rounded
// rectangle with one pen of each pattern.
func pens(width float64) *draw.Picture {
	p := draw.NewPicture()
	for i := range 6 {
		pen := draw.Pen{Role: draw.Role(int(draw.RoleHeld) + i), Width: width, Dash: draw.Dash(i)}
		x := 19 * float64(i)
		p.Stroke(coil(geom.Pt(x, 2)), pen)
		p.Stroke(draw.Rectangle(box(x, 15, x+13, 22), 0), pen)
		p.Stroke(draw.Line(geom.Pt(x, 26), geom.Pt(x+6, 29), geom.Pt(x+13, 25)), pen)
		p.Stroke(draw.Circle(geom.Pt(x+3, 36), 3), pen)
		p.FillStroke(draw.Rectangle(box(x+7.3, 33.1, x+14.6, 39.4), 1.5), draw.RoleCard, pen)
	}
	return p
}

// texts writes in both weights, three alignments and some sizes.
func texts() *draw.Picture {
	p := draw.NewPicture()
	for i, size := range []float64{1.2, 2.6, 3.2, 5} {
		for j := range 3 {
			at := geom.Pt(10+25*float64(j), 4+6*float64(i))
			p.Text(draw.Text{At: at, Size: size, Bold: i == 2, Align: draw.Align(j), Role: draw.RoleFaint, String: "AVy 4"})
			p.Stroke(draw.Line(at, at.Add(geom.Pt(0, 1))), draw.Pen{Role: draw.RoleAccent, Width: 0.2})
		}
	}
	return p
}

// TestLooks holds small images of all that is painted, at scales that make lines of
// less than a pixel, of one and of several: a pixel that differs by more than eye
// and rounding is told.
func TestLooks(t *testing.T) {
	translucent := draw.Light()
	translucent[draw.RoleHeld] = color.NRGBA{R: 200, A: 128}
	translucent[draw.RoleCard] = color.NRGBA{G: 200, A: 90}
	for _, look := range []struct {
		name    string
		picture *draw.Picture
		view    View
		palette draw.Palette
	}{
		{"pens-fine", pens(0.15), View{Scale: 3}, draw.Light()},
		{"pens-thin", pens(0.2), View{Scale: 1.4}, draw.Light()}, // gaps of less than a pixel
		{"pens-usual", pens(0.8), View{Scale: 3.3}, draw.Dark()},
		{"pens-heavy", pens(2), View{Scale: 2.5}, draw.Light()},
		{"pens-far", pens(0.8), View{Scale: 0.7}, draw.Light()},
		{"translucent", pens(0.8), View{Scale: 2.5}, translucent},
		{"stamps", sample(), View{Scale: 2.3, Origin: geom.Pt(42, 0)}, draw.Light()},
		{"stamps-near", sample(), View{Scale: 6.1, Origin: geom.Pt(88, 0), GridPitch: 2.5}, draw.Dark()},
		{"texts", texts(), View{Scale: 4, Origin: geom.Pt(0, -1)}, draw.Light()},
		{"grid-dots", draw.NewPicture(), View{Scale: 16, Origin: geom.Pt(-1, 2), GridPitch: 2.5}, draw.Light()},
	} {
		t.Run(look.name, func(t *testing.T) {
			margin := geom.Pt(2, 2).Mul(1 / look.view.Scale)
			look.view.Origin = look.view.Origin.Sub(margin)
			size := look.picture.Bounds()
			if size.IsEmpty() {
				size = box(0, 0, 5, 5)
			}
			width, height := look.view.Pixel(size.Max.Add(margin))
			img := image.NewRGBA(image.Rect(0, 0, min(400, int(width)), min(160, int(height))))
			New().Paint(img, look.picture, look.view, look.palette)
			drawtest.Image(t, "look-"+look.name+".png", img, 0)
		})
	}
}
