package pdf

import (
	"bytes"
	"image"
	"image/jpeg"
	"regexp"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// A PNG or JPEG is in the file once, however often it is drawn, and lies in its box;
// what is no image is left out.
func TestImages(t *testing.T) {
	var photo bytes.Buffer
	if err := jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 30, 20)), nil); err != nil {
		t.Fatal(err)
	}
	box := geom.RectOf(geom.Pt(10, 10), geom.Pt(30, 20))
	for name, row := range map[string]struct {
		data string
		size string // as the file has it; none where it has no image
	}{
		"PNG": {string(drawtest.Logo(20, 10)), "/Width 20\n/Height 10"}, "JPEG": {photo.String(), "/Width 30\n/Height 20"}, "neither": {"GIF89a", ""},
	} {
		p := draw.NewPicture()
		p.Image(draw.Image{Data: row.data, Box: box})
		file := written(t, Pages(A4, p, p), Options{})
		images := regexp.MustCompile(`/Subtype /Image\n/Width \d+\n/Height \d+\n/ColorSpace /DeviceRGB`).FindAll(file, -1)
		if want := map[bool]int{true: 1, false: 0}[row.size != ""]; len(images) != want || want == 1 && !bytes.Contains(images[0], []byte(row.size)) {
			t.Errorf("%s: got %q, want %d of %q", name, images, want, row.size)
		}
		// 20 by 10 mm, its foot 20 mm below the top of A4.
		if place := []byte("q 56.69291 0 0 28.34646 28.34646 785.19685 cm"); row.size != "" && !bytes.Contains([]byte(contents(t, file)[0]), place) {
			t.Errorf("%s: it lies elsewhere: %s", name, contents(t, file)[0])
		}
		if again := written(t, Pages(A4, p, p), Options{}); !bytes.Equal(file, again) {
			t.Errorf("%s: two exports differ", name)
		}
	}
}
