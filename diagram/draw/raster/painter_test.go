package raster

import (
	"image"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// painted returns the picture in a view as a new painter paints it.
func painted(picture *draw.Picture, view View, width, height int) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, width, height))
	New().Paint(dst, picture, view, draw.Light())
	return dst
}

// marked returns the smallest rectangle of pixels that are not paper.
func marked(img *image.RGBA) image.Rectangle {
	paper := draw.Light()[draw.RolePaper]
	out := image.Rectangle{}
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x++ {
			if img.RGBAAt(x, y) != (color.RGBA(paper)) {
				out = out.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return out
}

func equal(a, b *image.RGBA) bool { return string(a.Pix) == string(b.Pix) && a.Rect == b.Rect }

func TestSampleImage(t *testing.T) {
	img, err := newStrips(sample(), draw.Light(), 3.78, 3)
	if err != nil {
		t.Fatal(err)
	}
	// Masks are drawn with floating point, which may round otherwise elsewhere.
	drawtest.Image(t, "sample.png", img, 0.5)
}

func TestWarmIsCold(t *testing.T) {
	picture := sample()
	warm := New()
	views := []View{
		{Scale: 3.78, Origin: geom.Pt(-5, -5)}, {Scale: 5.3, Origin: geom.Pt(3.3, 1.7), GridPitch: 2.5},
		{Scale: 0.8}, {Scale: 12, Origin: geom.Pt(40, 20)},
	}
	dst := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for range 2 {
		for _, view := range views {
			warm.Paint(dst, picture, view, draw.Light())
			if !equal(dst, painted(picture, view, 400, 300)) {
				t.Errorf("%+v: a warm painter paints otherwise than a new one", view)
			}
		}
	}
}

func TestSmallBudgetPaintsTheSame(t *testing.T) {
	small := newPainter(4096, legibleOnScreen)
	dst := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for _, scale := range []float64{3, 4, 3, 5} {
		view := View{Scale: scale, Origin: geom.Pt(-5, -5)}
		small.Paint(dst, sample(), view, draw.Light())
		if !equal(dst, painted(sample(), view, 400, 300)) {
			t.Errorf("scale %v: a painter with little memory paints otherwise", scale)
		}
	}
	if small.cache.bytes > 4096 {
		t.Errorf("keeps %d bytes, want at most 4096", small.cache.bytes)
	}
}

func TestPanByPixelsMovesTheImage(t *testing.T) {
	const scale, dx, dy = 3.7, 7, 11
	picture := sample()
	before := painted(picture, View{Scale: scale, GridPitch: 2.5}, 300, 200)
	after := painted(picture, View{Scale: scale, GridPitch: 2.5, Origin: geom.Pt(dx/scale, dy/scale)}, 300, 200)
	for y := range 200 - dy {
		for x := range 300 - dx {
			if got, want := after.RGBAAt(x, y), before.RGBAAt(x+dx, y+dy); got != want {
				t.Fatalf("pixel %d, %d: got %v, want %v", x, y, got, want)
			}
		}
	}
}

// What is painted reaches as far as the picture says, to within half a pixel
// by which it is moved, half by which an odd width leans, a quarter by which
// half the width is rounded, and a pixel that is covered in part.
func TestInkReachesTheBounds(t *testing.T) {
	pictures := map[string]*draw.Picture{"sample": sample()}
	for name, path := range map[string]draw.Path{
		"line": draw.Line(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 9)), "aslant": draw.Line(geom.Pt(0, 0), geom.Pt(20, 7)),
		"circle": draw.Circle(geom.Pt(3, 3), 8), "rounded": draw.Rectangle(box(0, 0, 17, 9), 2),
	} {
		for _, dash := range []draw.Dash{draw.Solid, draw.Double} {
			p := draw.NewPicture()
			p.Stroke(path, draw.Pen{Width: 1.5, Dash: dash})
			pictures[name+" "+dash.String()] = p
		}
	}
	for name, picture := range pictures {
		for _, scale := range []float64{3.78, 6.5} {
			bounds := picture.Bounds()
			view := View{Scale: scale, Origin: bounds.Min.Sub(geom.Pt(10, 10).Mul(1 / scale))}
			size := geom.Pt(bounds.Width(), bounds.Height()).Mul(scale).Add(geom.Pt(20, 20))
			got := marked(painted(picture, view, int(size.X)+1, int(size.Y)+1))
			for side, off := range map[string]float64{
				"left": float64(got.Min.X) - 10, "top": float64(got.Min.Y) - 10,
				"right": float64(got.Max.X) - size.X + 10, "bottom": float64(got.Max.Y) - size.Y + 10,
			} {
				// An aslant line's square end does not fill its bounds.
				if tolerance := 2.25 + 0.75*scale*slack(name); math.Abs(off) > tolerance {
					t.Errorf("%s at %v: %s side is %.1f pixels off, want %.1f", name, scale, side, off, tolerance)
				}
			}
		}
	}
}

// slack is 1 where the ink need not reach the bounds, which take a pen's width
// for round: by half the width at a square end.
func slack(name string) float64 {
	if strings.HasPrefix(name, "circle") || strings.HasPrefix(name, "rounded") {
		return 0
	}
	return 1
}

func TestTurnedStampIsTurnedPicture(t *testing.T) {
	view := View{Scale: 4, Origin: geom.Pt(-20, -20)}
	for name, symbol := range map[string]*draw.Picture{"protector": protector(), "windings": windings(), "machine": machine()} {
		for turn := range 4 {
			turned := draw.NewPicture()
			turned.Append(symbol, geom.Turn(turn))
			placed, upright := draw.NewPicture(), draw.NewPicture()
			placed.Place(name, symbol, geom.Pt(0, 0), turn, draw.RoleInk)
			upright.Place(name, turned, geom.Pt(0, 0), 0, draw.RoleInk)
			if !equal(painted(placed, view, 160, 160), painted(upright, view, 160, 160)) {
				t.Errorf("%s turn %d differs from the turned picture", name, turn)
			}
			// Drawn as a plain path, a curve may move by half a pixel, which changes
			// the rims of its lines.
			got := drawtest.Differing(painted(placed, view, 160, 160), painted(turned, view, 160, 160))
			if got > 2 {
				t.Errorf("%s turn %d: %.2f %% differ from the turned paths", name, turn, got)
			}
		}
	}
}

func TestTurnsDiffer(t *testing.T) {
	view := View{Scale: 4, Origin: geom.Pt(-20, -20)}
	first, second := draw.NewPicture(), draw.NewPicture()
	first.Place("p", protector(), geom.Pt(0, 0), 0, draw.RoleInk)
	second.Place("p", protector(), geom.Pt(0, 0), 1, draw.RoleInk)
	dst, painter := image.NewRGBA(image.Rect(0, 0, 160, 160)), New()
	painter.Paint(dst, first, view, draw.Light())
	upright := image.NewRGBA(dst.Rect)
	copy(upright.Pix, dst.Pix)
	painter.Paint(dst, second, view, draw.Light())
	if equal(dst, upright) {
		t.Error("a quarter turn changes nothing: the turn is not part of the mask's name")
	}
}

func TestTintAndPaletteShareMasks(t *testing.T) {
	picture := draw.NewPicture()
	picture.Place("w", windings(), geom.Pt(10, 10), 0, draw.RoleHeld)
	picture.Place("w", windings(), geom.Pt(30, 10), 0, draw.RoleTight)
	painter, dst := New(), image.NewRGBA(image.Rect(0, 0, 200, 100))
	for _, palette := range []draw.Palette{draw.Light(), draw.Dark()} {
		painter.Paint(dst, picture, View{Scale: 4}, palette)
		for x, role := range map[int]draw.Role{40: draw.RoleHeld, 120: draw.RoleTight} {
			r, g, b, a := palette[role].RGBA()
			want := color.RGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), uint8(a >> 8)}
			if got := dst.RGBAAt(x, 8); got != want {
				t.Errorf("%s: got %v, want %v", role, got, want)
			}
		}
	}
	if got := len(painter.cache.kept); got != 1 {
		t.Errorf("%d masks kept, want 1", got)
	}
}

// A stamp is a mask for each change of colour from one item to the next.
func TestLayersOfAStamp(t *testing.T) {
	for name, row := range map[string]struct {
		picture *draw.Picture
		want    []draw.Role
	}{
		"all ink":                    {windings(), []draw.Role{draw.RoleInk}},
		"a line, a card, its letter": {machine(), []draw.Role{draw.RoleInk, draw.RoleCard, draw.RoleInk}},
	} {
		layers, _ := New().stamp(draw.Stamp{Key: name, Picture: row.picture}, 4)
		var got []draw.Role
		for _, l := range layers {
			got = append(got, l.role)
		}
		if !slices.Equal(got, row.want) {
			t.Errorf("%s: %v, want %v", name, got, row.want)
		}
	}
}

func TestSmallTextIsLeftOut(t *testing.T) {
	p := draw.NewPicture()
	p.Text(draw.Text{At: geom.Pt(5, 20), Size: 3, String: "Main"})
	for scale, shown := range map[float64]bool{1.2: false, 1.4: true} {
		if got := !marked(painted(p, View{Scale: scale}, 60, 60)).Empty(); got != shown {
			t.Errorf("%.1f pixels high: shown %v, want %v", 3*scale, got, shown)
		}
	}
}

func TestPartOfAnImage(t *testing.T) {
	whole := image.NewRGBA(image.Rect(0, 0, 120, 120))
	part := whole.SubImage(image.Rect(30, 40, 90, 100)).(*image.RGBA)
	view := View{Scale: 3, GridPitch: 3}
	New().Paint(part, sample(), view, draw.Light())
	want := painted(sample(), view, 60, 60)
	for y := range 120 {
		for x := range 120 {
			expected := color.RGBA{}
			if image.Pt(x, y).In(part.Rect) {
				expected = want.RGBAAt(x-30, y-40)
			}
			if got := whole.RGBAAt(x, y); got != expected {
				t.Fatalf("pixel %d, %d: got %v, want %v", x, y, got, expected)
			}
		}
	}
}

func TestWarmFramesDoNotAllocate(t *testing.T) {
	picture, painter, dst := sheet(200), New(), image.NewRGBA(image.Rect(0, 0, 600, 400))
	view := View{Scale: 3.78, GridPitch: 2.5}
	painter.Paint(dst, picture, view, draw.Light())
	if got := testing.AllocsPerRun(10, func() { painter.Paint(dst, picture, view, draw.Light()) }); got > 2 {
		t.Errorf("%v allocations a frame, want none of note", got)
	}
}

func TestNothingHangsOrPanics(t *testing.T) {
	hostile := draw.NewPicture()
	far := 1e12
	for dash := range draw.Dash(6) {
		pen := draw.Pen{Width: 0.8, Dash: dash}
		hostile.Stroke(draw.Line(geom.Pt(-far, 0), geom.Pt(far, 0), geom.Pt(far, far)), pen)
		hostile.Stroke(draw.Line(geom.Pt(-far, 0), geom.Pt(far, 1)), pen)
		hostile.Stroke(draw.Circle(geom.Pt(0, 0), 1e5), pen)
		hostile.Stroke(draw.Polygon(geom.Pt(1, 1)), pen)
		hostile.Stroke(draw.Line(geom.Pt(1, 1), geom.Pt(1, 1)), pen)
		hostile.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(-5000, 9000)), pen)
	}
	hostile.Fill(draw.Rectangle(box(-far, -far, far, far), 3), draw.RoleCard)
	hostile.Fill(draw.Rectangle(box(-far, -far, far, far), 0), draw.RoleHeld)
	hostile.Text(draw.Text{Size: 3, String: strings.Repeat("long ", 50000)})
	hostile.Text(draw.Text{Size: 1e6, String: "huge"})
	hostile.Place("k", machine(), geom.Pt(far, far), 0, draw.RoleInk)
	nan := math.NaN()
	views := []View{
		{}, {Scale: -1}, {Scale: nan}, {Scale: math.Inf(1)}, {Scale: 1, Origin: geom.Pt(nan, 0)}, {Scale: 1, GridPitch: nan},
		{Scale: 3, GridPitch: -1}, {Scale: 1e9}, {Scale: 1e-9, GridPitch: 1e-9}, {Scale: 3, Origin: geom.Pt(far, far), GridPitch: 5}, {Scale: 3, GridPitch: 5},
		{Scale: 60, Origin: geom.Pt(-2, -2)},
	}
	start := time.Now()
	for _, size := range []image.Point{{}, {X: 1, Y: 1}, {X: 300, Y: 200}} {
		for _, view := range views {
			painted(hostile, view, size.X, size.Y)
		}
	}
	// It takes a tenth of a second; a loop over each dash of 1e12 mm, hours.
	if took := time.Since(start); took > time.Minute {
		t.Errorf("took %v", took)
	}
}
