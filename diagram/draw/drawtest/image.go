package drawtest

import (
	"bytes"
	"image"
	"image/png"
	"testing"
)

// Image fails the test where more than the given per cent of pixels differ
// from those of the named PNG under testdata, or the size does.
func Image(t testing.TB, name string, got image.Image, perCent float64) {
	t.Helper()
	var encoded bytes.Buffer
	if err := png.Encode(&encoded, got); err != nil {
		t.Fatal(err)
	}
	content, ok := wanted(t, name, encoded.Bytes())
	if !ok {
		return
	}
	want, err := png.Decode(bytes.NewReader(content))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if share := Differing(got, want); share > perCent {
		t.Errorf("%s: %.2f %% of pixels differ, want at most %.2f %%", failed(t, name, encoded.Bytes()), share, perCent)
	}
}

// tolerance is how far apart two values of a channel may be, of 255, and still
// count as the same: less than an eye can tell, more than rounding makes.
const tolerance = 8

// Differing returns the per cent of pixels that differ between two images, 100
// where their sizes do.
func Differing(a, b image.Image) float64 {
	size := a.Bounds().Size()
	if size != b.Bounds().Size() {
		return 100
	}
	if size.X*size.Y == 0 {
		return 0
	}
	count := 0
	for y := range size.Y {
		for x := range size.X {
			if differ(a, b, image.Pt(x, y)) {
				count++
			}
		}
	}
	return 100 * float64(count) / float64(size.X*size.Y)
}

func differ(a, b image.Image, at image.Point) bool {
	p, q := at.Add(a.Bounds().Min), at.Add(b.Bounds().Min)
	r1, g1, b1, a1 := a.At(p.X, p.Y).RGBA()
	r2, g2, b2, a2 := b.At(q.X, q.Y).RGBA()
	return apart(r1, r2) || apart(g1, g2) || apart(b1, b2) || apart(a1, a2)
}

func apart(v, w uint32) bool {
	d := int(v>>8) - int(w>>8)
	return d > tolerance || d < -tolerance
}
