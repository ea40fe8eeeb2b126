package raster

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// The definition of source over destination, in floating point (T. Porter,
// T. Duff, "Compositing Digital Images", 1984), for premultiplied colours.
func over(there, paint, alpha uint8, cover float64) float64 {
	return float64(paint)*cover + float64(there)*(1-float64(alpha)*cover/255)
}

func TestTintIsSourceOver(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 100000 {
		alpha := uint8(random.IntN(256))
		if random.IntN(2) == 0 {
			alpha = 255
		}
		channel := func() uint8 { return uint8(random.IntN(int(alpha) + 1)) }
		paint := color.RGBA{channel(), channel(), channel(), alpha}
		pixel := []uint8{uint8(random.IntN(256)), uint8(random.IntN(256)), uint8(random.IntN(256)), 255}
		before := [4]uint8(pixel)
		cover := uint8(random.IntN(256))
		tintRow(pixel, newTint(pair(paint), cover))
		for i, c := range []uint8{paint.R, paint.G, paint.B, paint.A} {
			want := over(before[i], c, alpha, float64(cover)/255)
			// A shift by eight divides by 256 where 255 is meant, and the rest of the
			// paint's alpha is rounded up: two parts in 255 together.
			if math.Abs(float64(pixel[i])-want) > 2 {
				t.Fatalf("%v over %v at %d: channel %d is %d, want %.1f", paint, before, cover, i, pixel[i], want)
			}
		}
	}
}

func TestTintEnds(t *testing.T) {
	paint := color.RGBA{10, 200, 30, 255}
	for cover, want := range map[uint8][4]uint8{0: {1, 2, 3, 255}, 255: {10, 200, 30, 255}} {
		pixel := []uint8{1, 2, 3, 255}
		tintRow(pixel, newTint(pair(paint), cover))
		if [4]uint8(pixel) != want {
			t.Errorf("cover %d: got %v, want %v", cover, pixel, want)
		}
	}
}

func TestBlendRowMatchesTint(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for length := range 40 {
		cover := make([]uint8, length)
		for i := range cover {
			cover[i] = []uint8{0, 0, 0, 0, 0, 255, uint8(random.IntN(256))}[random.IntN(7)]
		}
		for _, paint := range []color.RGBA{{40, 50, 60, 255}, {20, 10, 5, 128}} {
			got, want := make([]uint8, 4*length), make([]uint8, 4*length)
			for i := range got {
				got[i], want[i] = 200, 200
			}
			blendRow(got, cover, paint)
			for i, a := range cover {
				tintRow(want[4*i:4*i+4], newTint(pair(paint), a))
			}
			if string(got) != string(want) {
				t.Fatalf("cover %v: got %v, want %v", cover, got, want)
			}
		}
	}
}

func TestTrimmed(t *testing.T) {
	mask := image.NewAlpha(image.Rect(-5, -5, 5, 5))
	mask.SetAlpha(-2, 1, color.Alpha{A: 7})
	mask.SetAlpha(3, 2, color.Alpha{A: 9})
	got := trimmed(mask)
	if want := image.Rect(-2, 1, 4, 3); got.Rect != want || got.AlphaAt(-2, 1).A != 7 || got.AlphaAt(3, 2).A != 9 {
		t.Errorf("got %v, want %v", got.Rect, want)
	}
	if got := trimmed(image.NewAlpha(mask.Rect)); !got.Rect.Empty() {
		t.Errorf("clear mask: got %v, want nothing", got.Rect)
	}
}

func TestTranslucentLineIsEvenAtCorners(t *testing.T) {
	palette := draw.Light()
	palette[draw.RoleInk] = color.NRGBA{R: 0, G: 0, B: 0, A: 128}
	p := draw.NewPicture()
	p.Stroke(draw.Rectangle(box(2, 2, 12, 12), 0), draw.Pen{Width: 2})
	img := image.NewRGBA(image.Rect(0, 0, 15, 15))
	New().Paint(img, p, View{Scale: 1}, palette)
	side, corner := img.RGBAAt(7, 2), img.RGBAAt(2, 2)
	if side != corner {
		t.Errorf("side %v, corner %v: painted twice", side, corner)
	}
}

// Two coverages together leave clear what both leave clear: 1 - (1-a)(1-b), to the
// nearest of 255 parts.
func TestJoin(t *testing.T) {
	for a := range 256 {
		for b := range 256 {
			want := math.Round(255 - float64((255-a)*(255-b))/255)
			if got := join(uint8(a), uint8(b)); float64(got) != want {
				t.Fatalf("%d and %d: %d, want %g", a, b, got, want)
			}
		}
	}
}

// Paths that differ in anything have masks of their own, and the same path elsewhere
// has the same: what a painter has kept shows nothing but what a new one paints.
func TestPathsHaveMasksOfTheirOwn(t *testing.T) {
	at := func(x, y float64) geom.Point { return geom.Pt(x, y) }
	alike := []draw.Shape{
		{Path: draw.Line(at(2, 2), at(12, 9), at(8, 20)), Fill: draw.RoleNone, Pen: draw.Pen{Width: 1}},
		{Path: draw.Line(at(2, 2), at(13, 9), at(8, 20)), Fill: draw.RoleNone, Pen: draw.Pen{Width: 1}},
		{Path: draw.Line(at(2, 2), at(12, 10), at(8, 20)), Fill: draw.RoleNone, Pen: draw.Pen{Width: 1}},
		{Path: draw.Line(at(2, 2), at(12, 9), at(8, 20)), Fill: draw.RoleNone, Pen: draw.Pen{Width: 2}},
		{Path: draw.Line(at(2, 2), at(12, 9), at(8, 20)), Fill: draw.RoleNone, Pen: draw.Pen{Width: 1, Dash: draw.Dashed}},
		{Path: draw.Line(at(2, 2), at(12, 9), at(8, 20)), Fill: draw.RoleNone, Pen: draw.Pen{Width: 1, Dash: draw.Dotted}},
		{Path: draw.Line(at(2, 2), at(12, 9), at(8, 20)), Fill: draw.RoleHeld},
		{Path: draw.Polygon(at(2, 2), at(12, 9), at(8, 20)), Fill: draw.RoleNone, Pen: draw.Pen{Width: 1}},
		{Path: draw.Circle(at(9, 9), 6), Fill: draw.RoleHeld, Pen: draw.Pen{Width: 0.9}},
		{Path: draw.Circle(at(9, 9), 6), Fill: draw.RoleHeld, Pen: draw.Pen{Width: 2}},
	}
	for _, scale := range []float64{1, 0.6} {
		warm, dst := New(), image.NewRGBA(image.Rect(0, 0, 24, 24))
		for i, shape := range alike {
			p := draw.NewPicture()
			p.Shape(shape)
			warm.Paint(dst, p, View{Scale: scale}, draw.Light())
			if !equal(dst, painted(p, View{Scale: scale}, 24, 24)) {
				t.Errorf("at a scale of %g shape %d is painted as one before it", scale, i)
			}
			before := len(warm.cache.kept)
			moved := draw.NewPicture()
			moved.Append(p, geom.Translate(at(3/scale, 7/scale)))
			warm.Paint(dst, moved, View{Scale: scale}, draw.Light())
			if got := len(warm.cache.kept); got != before {
				t.Errorf("at a scale of %g shape %d has another mask where it is moved by whole pixels", scale, i)
			}
		}
	}
}
