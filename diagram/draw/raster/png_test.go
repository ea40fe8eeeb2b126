package raster

import (
	"bytes"
	"encoding/binary"
	"image/png"
	"math"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

func TestWritePNG(t *testing.T) {
	const pixelsPerMM = 300 / 25.4
	var out bytes.Buffer
	if err := WritePNG(&out, sample(), draw.Light(), pixelsPerMM, 5); err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(out.Bytes(), []byte("pHYs"))
	if at != 37 {
		t.Fatalf("resolution at %d, want right after the header at 37", at)
	}
	for i, want := range []uint32{11811, 11811} { // 300 dots to the inch, to the metre
		if got := binary.BigEndian.Uint32(out.Bytes()[at+4+4*i:]); got != want {
			t.Errorf("axis %d: %d pixels to the metre, want %d", i, got, want)
		}
	}
	img, err := png.Decode(&out) // checks the sum of each chunk
	if err != nil {
		t.Fatal(err)
	}
	want := int(math.Ceil((sample().Bounds().Width() + 10) * pixelsPerMM))
	if got := img.Bounds().Dx(); got != want {
		t.Errorf("width: got %d, want %d", got, want)
	}
}

func TestImageRefusesWhatItCannotMake(t *testing.T) {
	huge := draw.NewPicture()
	huge.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(1e6, 1e6)), fine)
	tests := []struct {
		name                string
		picture             *draw.Picture
		pixelsPerMM, margin float64
	}{
		{"too large", huge, 4, 0}, {"no resolution", sample(), 0, 0}, {"not a number", sample(), math.NaN(), 0},
		{"infinite", sample(), math.Inf(1), 0}, {"margin eats all", sample(), 4, -1000}, {"nothing without margin", draw.NewPicture(), 4, 0},
	}
	for _, test := range tests {
		if img, err := Image(test.picture, draw.Light(), test.pixelsPerMM, test.margin); err == nil {
			t.Errorf("%s: got an image of %v", test.name, img.Rect)
		}
	}
}

func TestImageOfNothingIsItsMargin(t *testing.T) {
	img, err := Image(draw.NewPicture(), draw.Light(), 4, 5)
	if err != nil || img.Rect.Dx() != 40 || img.Rect.Dy() != 40 {
		t.Errorf("got %v, %v, want 40 by 40", img, err)
	}
}
