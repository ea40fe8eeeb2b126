package raster

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// A line is as wide as the nearest whole pixel, halves upward, at least one; much
// finer ones are a pixel of less than full strength, of which three tenths are left.
func TestThickness(t *testing.T) {
	for _, row := range []struct {
		width  float64
		pixels int
		cover  uint8
	}{{0.1, 1, 76}, {0.3, 1, 76}, {0.5, 1, 127}, {0.7499, 1, 191}, {0.75, 1, 255}, {1.49, 1, 255}, {1.5, 2, 255}, {3.4, 3, 255}} {
		if pixels, cover := thickness(row.width); pixels != row.pixels || cover != row.cover {
			t.Errorf("%g: %d pixels, cover %d, want %d and %d", row.width, pixels, cover, row.pixels, row.cover)
		}
	}
}

// Every dot of the grid, and nothing else, is where the view puts its point of the
// sheet: a sixth of a millimetre large, at least a pixel, about the nearest whole
// pixel. Below six pixels apart there is none.
func TestGridLiesOnThePitch(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	views := []View{{Scale: 6, GridPitch: 1}, {Scale: 5.99, GridPitch: 1}, {Scale: 9, GridPitch: 2.5}, {Scale: 15, GridPitch: 2.5, Origin: geom.Pt(-1, -1)}}
	for range 20 {
		views = append(views, View{Scale: 1 + 30*random.Float64(), GridPitch: 1 + 5*random.Float64(), Origin: geom.Pt(random.Float64()*40-20, random.Float64()*40-20)})
	}
	round := func(v float64) int { return int(math.Floor(v + 0.5)) }
	for _, view := range views {
		const size = 90
		want := map[image.Point]bool{}
		dot := max(1, round(view.Scale/6))
		for i := -300; i <= 300 && view.Scale*view.GridPitch >= 6; i++ {
			for j := -300; j <= 300; j++ {
				x := round(float64(i)*view.GridPitch*view.Scale) - round(view.Origin.X*view.Scale) - dot/2
				y := round(float64(j)*view.GridPitch*view.Scale) - round(view.Origin.Y*view.Scale) - dot/2
				for k := 0; k < dot*dot && max(x, y) < size && min(x, y) > -dot; k++ {
					want[image.Pt(x+k%dot, y+k/dot)] = true
				}
			}
		}
		img := painted(draw.NewPicture(), view, size, size)
		for k := range size * size {
			at := image.Pt(k%size, k/size)
			if got := img.RGBAAt(at.X, at.Y) == color.RGBA(draw.Light()[draw.RoleGrid]); got != want[at] {
				t.Fatalf("%+v: at %v there is a dot: %v, want %v", view, at, got, want[at])
			}
		}
	}
}

// A view is painted up to 2^27 pixels from the origin of the sheet, on all sides.
func TestFarViews(t *testing.T) {
	for away, shown := range map[float64]bool{1<<27 - 1: true, 1 << 27: false} {
		for _, at := range []geom.Point{{X: away}, {X: -away}, {Y: away}, {Y: -away}} {
			for _, scale := range []float64{1, 4} {
				p, middle := draw.NewPicture(), at.Mul(1/scale).Add(geom.Pt(5, 5))
				p.Fill(draw.Rectangle(geom.RectOf(middle, middle).Grow(1), 0), draw.RoleInk)
				if got := !marked(painted(p, View{Scale: scale, Origin: at.Mul(1 / scale)}, 40, 40)).Empty(); got != shown {
					t.Errorf("%v at a scale of %g: shown %v, want %v", at, scale, got, shown)
				}
			}
		}
	}
}

// A line that ends beyond all numbers of pixels goes that way, not the other.
func TestLinesToFarAway(t *testing.T) {
	for _, row := range []struct {
		to   geom.Point
		want image.Rectangle
	}{
		{geom.Pt(1e300, 10), image.Rect(10, 10, 40, 11)}, {geom.Pt(-1e300, 10), image.Rect(0, 10, 10, 11)},
		{geom.Pt(10, 1e300), image.Rect(10, 10, 11, 40)}, {geom.Pt(10, -1e300), image.Rect(10, 0, 11, 10)},
	} {
		p := draw.NewPicture()
		p.Stroke(draw.Line(geom.Pt(10, 10), row.to), draw.Pen{Width: 1})
		if got := marked(painted(p, View{Scale: 1}, 40, 40)); got != row.want {
			t.Errorf("to %v: ink in %v, want %v", row.to, got, row.want)
		}
	}
}

// Text is drawn from 4 pixels to the em on, and up to 1024.
func TestSizesOfText(t *testing.T) {
	for size, shown := range map[float64]bool{3.99: false, 4: true, 1024: true, 1024.5: false} {
		p := draw.NewPicture()
		p.Text(draw.Text{At: geom.Pt(0, 30), Size: size, String: "HHH"})
		if got := !marked(painted(p, View{Scale: 1}, 800, 40)).Empty(); got != shown {
			t.Errorf("%g pixels: shown %v, want %v", size, got, shown)
		}
	}
}

// An export may be enlarged: its text is drawn from a pixel to the em on.
func TestSizesOfTextInAnExport(t *testing.T) {
	for size, shown := range map[float64]bool{0.95: false, 1: true} {
		p := draw.NewPicture()
		p.Text(draw.Text{Size: size, String: "HHHHHH"})
		s, err := newStrips(p, draw.Light(), 1, 3)
		if err != nil {
			t.Fatal(err)
		}
		if got := !marked(s.simplest().(*image.RGBA)).Empty(); got != shown {
			t.Errorf("%g pixels: shown %v, want %v", size, got, shown)
		}
	}
}

// No line of text takes more than 8192 pixels of width, whatever it says, and no
// more than 24 faces are kept.
func TestMemoryOfText(t *testing.T) {
	painter, dst := New(), image.NewRGBA(image.Rect(0, 0, 40, 40))
	long := draw.NewPicture()
	long.Text(draw.Text{At: geom.Pt(0, 20), Size: 8, String: strings.Repeat("W", 9000)})
	painter.Paint(dst, long, View{Scale: 1}, draw.Light())
	for key, kept := range painter.cache.kept {
		if got := kept.layers[0].mask.Rect.Dx(); got < 8150 || got > 8192+8 {
			t.Errorf("%v: %d pixels wide, want about 8192", key.kind, got)
		}
	}
	for i := range 60 {
		p := draw.NewPicture()
		p.Text(draw.Text{At: geom.Pt(0, 20), Size: 4 + float64(i), String: "a"})
		painter.Paint(dst, p, View{Scale: 1}, draw.Light())
		if got := len(painter.faces); got > 24 {
			t.Fatalf("%d faces are kept", got)
		}
	}
}

// What was used last is kept: of three masks that have no room together, the one
// that was not asked for again goes.
func TestCacheKeepsWhatIsUsed(t *testing.T) {
	c := cache{kept: map[maskKey]*kept{}, budget: 3400}
	key := func(name string) maskKey { return maskKey{text: name} }
	mask := []layer{{mask: image.NewAlpha(image.Rect(0, 0, 40, 20))}} // 800 bytes, and 256 for the entry
	for _, name := range []string{"a", "b", "c"} {
		c.frame++
		c.put(key(name), mask)
	}
	if len(c.kept) != 3 || c.bytes != 3*1056 {
		t.Fatalf("%d masks of %d bytes are kept, want 3 of 3168", len(c.kept), c.bytes)
	}
	c.frame++
	c.get(key("a"))
	c.put(key("d"), mask) // 4224 bytes: down to 2550, so two may stay
	_, a := c.get(key("a"))
	_, b := c.get(key("b"))
	_, d := c.get(key("d"))
	if !a || b || !d || len(c.kept) != 2 || c.bytes != 2*1056 {
		t.Errorf("a %v, b %v, d %v, %d masks of %d bytes", a, b, d, len(c.kept), c.bytes)
	}
}

// A painter for the screen keeps up to 48 MB of masks, and makes room by letting go
// of a quarter of them. A stamp of more than 2 million pixels is drawn and not kept.
func TestMemoryOfMasks(t *testing.T) {
	painter, dst, most := New(), image.NewRGBA(image.Rect(0, 0, 40, 40)), 0
	place := func(key string, side float64) {
		sub, p := draw.NewPicture(), draw.NewPicture()
		sub.Fill(draw.Rectangle(box(0, 0, side, side), 0), draw.RoleInk)
		p.Place(key, sub, geom.Pt(0, 0), 0, draw.RoleInk)
		painter.Paint(dst, p, View{Scale: 1}, draw.Light())
	}
	for i := range 60 {
		before := painter.cache.bytes
		place(fmt.Sprint(i), 1000) // a million bytes each
		if now := painter.cache.bytes; now < before && (now > 36<<20 || now < 35<<20) {
			t.Errorf("%d MB are left, want three quarters of 48", now>>20)
		}
		most = max(most, painter.cache.bytes)
	}
	if most > 48<<20 || most < 47<<20 {
		t.Errorf("up to %d bytes are kept, want nearly 48 MB", most)
	}
	painter.cache.shrink(0)
	for side, kept := range map[float64]int{1440: 1, 1446: 0} { // with 2 pixels all round 1444² and 1450², of 2²¹ = 1448.2²
		painter.cache.shrink(0)
		place("x", side)
		if got := len(painter.cache.kept); got != kept {
			t.Errorf("%g pixels wide: %d kept, want %d", side, got, kept)
		}
		if got := marked(dst); got != dst.Rect {
			t.Errorf("%g pixels wide: ink in %v, want all of it", side, got)
		}
	}
}

// A path is drawn up to 2^17 pixels long and keeps its gaps up to 2^15.
func TestLongPaths(t *testing.T) {
	slanted := func(reach float64, dash draw.Dash) *image.RGBA {
		p := draw.NewPicture()
		p.Stroke(draw.Line(geom.Pt(-reach+20, -reach+20), geom.Pt(reach+20, reach+20)), draw.Pen{Width: 6, Dash: dash})
		return painted(p, View{Scale: 1}, 40, 40)
	}
	for reach, shown := range map[float64]bool{65_000: true, 66_000: false} {
		if got := !marked(slanted(reach, draw.Solid)).Empty(); got != shown {
			t.Errorf("%g pixels: shown %v, want %v", 2*reach, got, shown)
		}
	}
	for reach, gaps := range map[float64]bool{16_000: true, 17_000: false} {
		if got := !equal(slanted(reach, draw.Dotted), slanted(reach, draw.Solid)); got != gaps {
			t.Errorf("%g pixels: with gaps %v, want %v", 2*reach, got, gaps)
		}
	}
}

// A circle too large for a mask of its own is where geometry has it.
func TestLargeCircle(t *testing.T) {
	const radius, scale = 200, 4.0
	p := draw.NewPicture()
	p.Stroke(draw.Circle(geom.Pt(0, 0), radius), draw.Pen{Width: 1})
	view := View{Scale: scale, Origin: geom.Pt(radius/math.Sqrt2-20, radius/math.Sqrt2-20)}
	img, ink := painted(p, view, 160, 160), 0
	for k := range 160 * 160 {
		x, y := k%160, k/160
		off := view.Sheet(float64(x)+0.5, float64(y)+0.5).Length() - radius
		switch dark := img.RGBAAt(x, y) == color.RGBA(draw.Light()[draw.RoleInk]); {
		case dark && math.Abs(off) > 0.75: // half the width, half a pixel of place and the curve's own error
			t.Fatalf("ink %.2f mm off the circle", off)
		case dark:
			ink++
		case math.Abs(off) < 0.1:
			t.Fatalf("no ink %.2f mm off the circle", off)
		}
	}
	if ink == 0 {
		t.Error("no ink")
	}
}

// An exported image has up to 250 million pixels, of which 8 million are held.
func TestSizeOfExport(t *testing.T) {
	for _, row := range []struct {
		width, height float64
		rows          int // of a strip, none where it is refused
	}{{12500, 20000, 671}, {12501, 20000, 0}, {10, 10, 838860}, {1, 1, 8388608}, {10_000_000, 1, 1}} {
		p := draw.NewPicture()
		p.Fill(draw.Rectangle(box(0, 0, row.width, row.height), 0), draw.RoleInk)
		got := 0
		if s, err := newStrips(p, draw.Light(), 1, 0); err == nil {
			got = s.height
		}
		if got != row.rows {
			t.Errorf("%g by %g pixels: strips of %d rows, want %d", row.width, row.height, got, row.rows)
		}
	}
}

// However the bytes come, the chunk stands after the header and nothing is lost.
func TestInserter(t *testing.T) {
	text := strings.Repeat("0123456789", 6)
	for size := 1; size <= len(text); size++ {
		var out bytes.Buffer
		in := &inserter{to: &out, at: headerBytes, what: []byte("CHUNK")}
		for at := 0; at < len(text); at += size {
			piece := text[at:min(at+size, len(text))]
			if n, err := in.Write([]byte(piece)); n != len(piece) || err != nil {
				t.Fatal(n, err)
			}
		}
		if got, want := out.String(), text[:33]+"CHUNK"+text[33:]; got != want {
			t.Errorf("by %d: got %s, want %s", size, got, want)
		}
	}
	for room := range 70 {
		in := &inserter{to: &full{room}, at: headerBytes, what: []byte("CHUNK")}
		if n, err := in.Write([]byte(text)); (err == nil) != (room >= 65) || n > len(text) {
			t.Errorf("room for %d bytes: %d, %v", room, n, err)
		}
	}
}

// full is a disk with room for some bytes.
type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	n := min(f.room, len(p))
	f.room -= n
	if n < len(p) {
		return n, fmt.Errorf("no space left")
	}
	return n, nil
}
