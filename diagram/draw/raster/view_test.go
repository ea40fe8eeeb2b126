package raster

import (
	"math"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

func TestViewThereAndBack(t *testing.T) {
	view := View{Scale: 3.7, Origin: geom.Pt(12, -5)}
	for _, p := range []geom.Point{{}, {X: 12, Y: -5}, {X: -3, Y: 88}} {
		x, y := view.Pixel(p)
		// Rounding of floating point only.
		if got := view.Sheet(x, y); got.Distance(p) > 1e-9 {
			t.Errorf("got %v, want %v", got, p)
		}
	}
}

func TestFitShowsAll(t *testing.T) {
	for name, r := range map[string]geom.Rect{"wide": box(10, 10, 310, 40), "tall": box(-5, -5, 5, 95)} {
		view := fit(r, 800, 600)
		x0, y0 := view.Pixel(r.Min)
		x1, y1 := view.Pixel(r.Max)
		if math.Abs(x0+x1-800) > 1e-6 || math.Abs(y0+y1-600) > 1e-6 {
			t.Errorf("%s: from %v, %v to %v, %v is not in the middle", name, x0, y0, x1, y1)
		}
		if full := math.Max((x1-x0)/800, (y1-y0)/600); math.Abs(full-1) > 1e-9 {
			t.Errorf("%s: fills %v of the image, want 1", name, full)
		}
	}
	for name, view := range map[string]View{
		"nothing": fit(geom.Empty(), 800, 600), "no image": fit(box(0, 0, 1, 1), 0, 0), "point": fit(geom.Rect{}, 800, 600),
	} {
		if view != (View{Scale: 1}) {
			t.Errorf("%s: got %+v, want one pixel to the millimetre", name, view)
		}
	}
}

func TestGridDots(t *testing.T) {
	tests := []struct {
		name  string
		view  View
		count int // of dots in 40 by 40 pixels
	}{
		{"every eight pixels", View{Scale: 3.2, GridPitch: 2.5}, 25},
		{"moved", View{Scale: 3.2, GridPitch: 2.5, Origin: geom.Pt(1.25, 1.25)}, 25},
		{"too close", View{Scale: 2, GridPitch: 2.5}, 0},
		{"none", View{Scale: 3.2}, 0},
	}
	grid := draw.Light()[draw.RoleGrid]
	for _, test := range tests {
		img, count := painted(draw.NewPicture(), test.view, 40, 40), 0
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] == grid.R && img.Pix[i+1] == grid.G && img.Pix[i+2] == grid.B {
				count++
			}
		}
		if count != test.count {
			t.Errorf("%s: got %d, want %d", test.name, count, test.count)
		}
	}
}

// Labels are as wide as the picture measures them, whatever the size in pixels.
func TestLabelIsAsWideAsMeasured(t *testing.T) {
	for _, scale := range []float64{2, 3.78, 5.35, 11} {
		for _, align := range []draw.Align{draw.Left, draw.Center, draw.Right} {
			p := draw.NewPicture()
			text := draw.Text{At: geom.Pt(60, 20), Size: 3, Align: align, String: "HN 480Y/277 V, 22 kA NH"}
			p.Text(text)
			view := View{Scale: scale}
			got := marked(painted(p, view, int(120*scale), int(40*scale)))
			left, _ := view.Pixel(text.Bounds().Min)
			right, _ := view.Pixel(text.Bounds().Max)
			// H has 0.098 em of room on each side; a pixel for place, one for the size
			// rounded to quarters of a pixel over the whole text.
			room := 0.098 * 3 * scale
			if math.Abs(float64(got.Min.X)-left-room) > 2 || math.Abs(float64(got.Max.X)-right+room) > 2 {
				t.Errorf("%s at %v: from %d to %d, want %.1f to %.1f", align, scale, got.Min.X, got.Max.X, left+room, right-room)
			}
		}
	}
}

// fit returns the view that shows all of the rectangle, in millimetres, in the
// middle of an image of the given size in pixels. An empty rectangle or size
// gives a view of one pixel to the millimetre.
func fit(r geom.Rect, width, height int) View {
	scale := math.Min(float64(width)/r.Width(), float64(height)/r.Height())
	view := View{Scale: scale}
	if r.IsEmpty() || !view.valid() {
		return View{Scale: 1}
	}
	view.Origin = r.Center().Sub(geom.Pt(float64(width), float64(height)).Mul(0.5 / scale))
	return view
}
