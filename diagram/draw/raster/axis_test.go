package raster

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// rows writes an image as text, a line to a row of pixels: dots for paper, x for
// ink and + for what is between.
func rows(img *image.RGBA) string {
	paper, ink := draw.Light()[draw.RolePaper], draw.Light()[draw.RoleInk]
	var out strings.Builder
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			switch img.RGBAAt(x, y) {
			case color.RGBA(paper):
				out.WriteByte('.')
			case color.RGBA(ink):
				out.WriteByte('x')
			default:
				out.WriteByte('+')
			}
		}
		out.WriteByte('\n')
	}
	return out.String()
}

// plus is four lines of a pixel each, out from a point. The pixel at the point is
// that of the ways right and down; those left and up lie beside it.
func plus(at geom.Point) draw.Path {
	var p draw.Path
	for turn := range 4 {
		p.Append(draw.Line(at, at.Add(geom.Turn(turn).Apply(geom.Pt(1, 0)))))
	}
	return p
}

func TestLinesAlongAxesArePixels(t *testing.T) {
	tests := []struct {
		name  string
		path  draw.Path
		width float64
		want  string
	}{
		{"one pixel, off the grid", draw.Line(geom.Pt(1.3, 1.4), geom.Pt(4.2, 1.4)), 1.2, `
......
.xxx..
......
`},
		{"corner of two", draw.Line(geom.Pt(0, 1), geom.Pt(4, 1), geom.Pt(4, 4)), 2, `
xxxxx.
xxxxx.
...xx.
...xx.
......
`},
		{"corner of three, from the end", draw.Line(geom.Pt(4, 5), geom.Pt(4, 1), geom.Pt(0, 1)), 3, `
xxxxxx
xxxxxx
xxxxxx
...xxx
...xxx
`},
		{"a pixel each way", plus(geom.Pt(2, 2)), 1, `
......
..x...
.xx...
......
`},
		{"of no length: a dot, so that what is small does not vanish", draw.Line(geom.Pt(2.6, 2), geom.Pt(3.2, 2)), 3, `
......
..xxx.
..xxx.
..xxx.
......
`},
		{"closed", draw.Rectangle(geom.RectOf(geom.Pt(1, 1), geom.Pt(4, 3)), 0), 1, `
......
.xxxx.
.x..x.
.xxxx.
......
`},
	}
	for _, test := range tests {
		p := draw.NewPicture()
		p.Stroke(test.path, draw.Pen{Width: test.width})
		want := strings.TrimPrefix(test.want, "\n")
		if got := rows(painted(p, View{Scale: 1}, 6, strings.Count(want, "\n"))); got != want {
			t.Errorf("%s: got\n%swant\n%s", test.name, got, want)
		}
	}
}

// A sharp rectangle is filled in whole pixels, at least one each way.
func TestFilledRectanglesArePixels(t *testing.T) {
	for name, row := range map[string]struct {
		r    geom.Rect
		want string
	}{
		"speck":           {box(1.1, 1.2, 1.3, 1.4), "....\n.x..\n....\n"},
		"flat":            {box(0.6, 1.2, 3.4, 1.4), "....\n.xx.\n....\n"},
		"to the nearest":  {box(0.4, 0.6, 2.6, 2.4), "....\nxxx.\n....\n"},
		"half out of it":  {box(-5, -5, 2, 2), "xx..\nxx..\n....\n"},
		"all out of it":   {box(9, -5, 12, 2), "....\n....\n....\n"},
		"all of it":       {box(-9, -9, 9, 9), "xxxx\nxxxx\nxxxx\n"},
		"beyond the left": {box(-9, 0, -1, 9), "....\n....\n....\n"},
	} {
		p := draw.NewPicture()
		p.Fill(draw.Rectangle(row.r, 0), draw.RoleInk)
		if got := rows(painted(p, View{Scale: 1}, 4, 3)); got != row.want {
			t.Errorf("%s: got\n%swant\n%s", name, got, row.want)
		}
	}
}

// At three pixels to the millimetre a dashed line 1 mm wide has 2.7 mm of ink
// and 0.95 mm of gap: 8 and 3 pixels.
func TestDashesInPixels(t *testing.T) {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(1, 0), geom.Pt(9, 0), geom.Pt(9, 3)), draw.Pen{Width: 1, Dash: draw.Dashed})
	// The third dash goes 2 pixels on and 6 round the corner.
	want := strings.TrimPrefix(`
...xxxxxxxx...xxxxxxxx...xxxx
...xxxxxxxx...xxxxxxxx...xxxx
...xxxxxxxx...xxxxxxxx...xxxx
..........................xxx
..........................xxx
..........................xxx
..........................xxx
.............................
`, "\n")
	if got := rows(painted(p, View{Scale: 3, Origin: geom.Pt(0, -1.0/3)}, 29, 8)); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// Far out a pattern of a pixel or two would flicker: it is an even line, as
// strong as its share of ink.
func TestFinePatternIsEven(t *testing.T) {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(0, 5), geom.Pt(100, 5)), draw.Pen{Width: 1, Dash: draw.Dashed})
	img := painted(p, View{Scale: 0.5}, 50, 6)
	first := img.RGBAAt(0, 3)
	for x := range 50 {
		if got := img.RGBAAt(x, 3); got != first || got == img.RGBAAt(0, 0) {
			t.Fatalf("pixel %d: got %v, first is %v", x, got, first)
		}
	}
}

// So is a line aslant: it has the share of a solid line's ink that is not gap.
func TestFinePatternAslantIsEven(t *testing.T) {
	darkness := func(dash draw.Dash) (sum float64) {
		p := draw.NewPicture()
		p.Stroke(draw.Line(geom.Pt(5, 5), geom.Pt(95, 60)), draw.Pen{Width: 2, Dash: dash})
		img := painted(p, View{Scale: 0.5}, 50, 40)
		for i := 0; i < len(img.Pix); i += 4 {
			sum += float64(img.Pix[0]) - float64(img.Pix[i])
		}
		return sum
	}
	ink, gap := draw.Dashed.Pattern(2)
	// Each of the pixels on the edges is rounded to one part in 255, of about 200.
	if got, want := darkness(draw.Dashed)/darkness(draw.Solid), ink/(ink+gap); math.Abs(got-want) > 0.01 {
		t.Errorf("%.3f of the ink of a solid line, want %.3f", got, want)
	}
}

// A long line is painted alike wherever the view begins along it.
func TestPatternDoesNotSwim(t *testing.T) {
	for dash := range draw.Dash(6) {
		p := draw.NewPicture()
		p.Stroke(draw.Line(geom.Pt(0, 5), geom.Pt(2000, 5), geom.Pt(2000, 800)), draw.Pen{Width: 1, Dash: dash})
		all := painted(p, View{Scale: 2}, 3000, 20)
		part := painted(p, View{Scale: 2, Origin: geom.Pt(500, 0)}, 1000, 20)
		if !equal(part, crop(all, image.Rect(1000, 0, 2000, 20))) {
			t.Errorf("%s: the pattern depends on the view", dash)
		}
	}
}

// crop returns part of an image as an image of its own.
func crop(from *image.RGBA, r image.Rectangle) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, r.Dx(), r.Dy()))
	for y := range r.Dy() {
		copy(out.Pix[y*out.Stride:][:4*r.Dx()], from.Pix[from.PixOffset(r.Min.X, r.Min.Y+y):])
	}
	return out
}
