package raster

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// largestImage is the number of pixels an exported image may have: 1 GB of
// memory, an A0 sheet at 400 dots to the inch.
const largestImage = 250e6

// Image returns the whole picture on its paper, with the margin round it in
// millimetres. A picture that needs too many pixels is an error.
func Image(picture *draw.Picture, palette draw.Palette, pixelsPerMM, margin float64) (*image.RGBA, error) {
	bounds := picture.Bounds()
	if bounds.IsEmpty() {
		bounds = geom.Rect{}
	}
	bounds = bounds.Grow(margin)
	width, height := math.Ceil(bounds.Width()*pixelsPerMM), math.Ceil(bounds.Height()*pixelsPerMM)
	if !(pixelsPerMM > 0) || !(width >= 1 && height >= 1) {
		return nil, fmt.Errorf("image of %.0f by %.0f mm at %g pixels to the millimetre: nothing to show, choose a greater resolution or margin",
			bounds.Width(), bounds.Height(), pixelsPerMM)
	}
	if width*height > largestImage {
		return nil, fmt.Errorf("image of %.0f by %.0f pixels: more than %.0f million, choose a lower resolution",
			width, height, largestImage/1e6)
	}
	out := image.NewRGBA(image.Rect(0, 0, int(width), int(height)))
	const legible = 1 // a printed pixel is small, and an export may be enlarged
	newPainter(maskBudget, legible).Paint(out, picture, View{Scale: pixelsPerMM, Origin: bounds.Min}, palette)
	return out, nil
}

// WritePNG writes the image of the whole picture as a PNG that carries its
// resolution, so that it prints at the size of the sheet.
func WritePNG(w io.Writer, picture *draw.Picture, palette draw.Palette, pixelsPerMM, margin float64) error {
	out, err := Image(picture, palette, pixelsPerMM, margin)
	if err != nil {
		return err
	}
	var encoded bytes.Buffer
	if err := png.Encode(&encoded, out); err != nil {
		return err
	}
	// The resolution belongs between the header, which is the first 33 bytes
	// (signature and IHDR), and the pixels.
	const header = 33
	for _, part := range [][]byte{encoded.Next(header), resolution(pixelsPerMM), encoded.Bytes()} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// resolution returns the pHYs chunk of a PNG: pixels to the metre across and
// down (W3C, Portable Network Graphics, third edition, 11.3.4.3).
func resolution(pixelsPerMM float64) []byte {
	chunk := []byte("\x00\x00\x00\x09pHYs")
	perMetre := uint32(math.Round(pixelsPerMM * 1000))
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // the unit is the metre
	return binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
}
