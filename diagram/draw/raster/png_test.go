package raster

import (
	"bytes"
	"encoding/binary"
	"image/png"
	"math"
	"runtime"
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
	if unit := out.Bytes()[at+12]; unit != 1 {
		t.Errorf("the unit of the resolution is %d, want 1, the metre", unit)
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
		if img, err := newStrips(test.picture, draw.Light(), test.pixelsPerMM, test.margin); err == nil {
			t.Errorf("%s: got an image of %v", test.name, img.Bounds())
		}
		var out bytes.Buffer
		if err := WritePNG(&out, test.picture, draw.Light(), test.pixelsPerMM, test.margin); err == nil || out.Len() > 0 {
			t.Errorf("%s: wrote %d bytes, %v", test.name, out.Len(), err)
		}
	}
}

func TestImageOfNothingIsItsMargin(t *testing.T) {
	img, err := newStrips(draw.NewPicture(), draw.Light(), 4, 5)
	if err != nil || img.Bounds().Dx() != 40 || img.Bounds().Dy() != 40 {
		t.Errorf("got %v, %v, want 40 by 40", img, err)
	}
}

// An image made strip by strip is that made at once, to the pixel.
func TestStripsJoin(t *testing.T) {
	whole, err := newStrips(sample(), draw.Light(), 7.3, 2.1)
	if err != nil {
		t.Fatal(err)
	}
	whole.height = whole.bounds.Dy()
	inOrder := make([]int, whole.bounds.Dy())
	for y := range inOrder {
		inOrder[y] = y
	}
	for _, row := range []struct {
		height int
		order  []int
	}{{1, inOrder}, {7, inOrder}, {64, inOrder}, {64, []int{70, 5, 200, 199, 64, 63, 3}}} {
		parts, _ := newStrips(sample(), draw.Light(), 7.3, 2.1)
		parts.height = row.height
		for _, y := range row.order {
			for x := range whole.bounds.Dx() {
				if a, b := whole.At(x, y).(*pixel), parts.At(x, y).(*pixel); *a != *b {
					t.Fatalf("strips of %d rows: at %d, %d the pixel is %v, want %v", row.height, x, y, *b, *a)
				}
			}
		}
	}
}

// A large export holds a strip, not the image: of 25 million pixels, 100 MB, less
// than half stands in memory at any time.
func TestLargeImageTakesLittleMemory(t *testing.T) {
	wide := draw.NewPicture()
	wide.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(1000, 1000)), fine)
	peak := &watcher{}
	if err := WritePNG(peak, wide, draw.Light(), 5, 0); err != nil {
		t.Fatal(err)
	}
	if peak.bytes > 50<<20 {
		t.Errorf("%d MB in use while 100 MB of pixels were written", peak.bytes>>20)
	}
	t.Logf("%d MB in use at most", peak.bytes>>20)
}

// watcher notes the memory in use at each write, after what is no longer used has
// been let go.
type watcher struct {
	bytes  uint64
	writes int
}

func (w *watcher) Write(p []byte) (int, error) {
	if w.writes++; w.writes%8 == 0 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		w.bytes = max(w.bytes, m.HeapAlloc)
	}
	return len(p), nil
}
