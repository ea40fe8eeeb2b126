package drawtest

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
)

// Logo returns a PNG of the size, in pixels: red, its right half clear.
func Logo(width, height int) []byte {
	pixels := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width / 2 {
			pixels.SetNRGBA(x, y, color.NRGBA{R: 255, A: 255})
		}
	}
	var out bytes.Buffer
	if err := png.Encode(&out, pixels); err != nil {
		panic("drawtest: " + err.Error())
	}
	return out.Bytes()
}
