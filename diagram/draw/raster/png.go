package raster

import (
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

// largestImage is the number of pixels an exported image may have: an A0 sheet at
// 400 dots to the inch. Programs that open it hold it whole, at 1 GB.
const largestImage = 250e6

// newStrips returns the whole picture on its paper, with the margin round it in
// millimetres. A picture that needs too many pixels is an error.
func newStrips(picture *draw.Picture, palette draw.Palette, pixelsPerMM, margin float64) (*strips, error) {
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
	const legible = 1 // a printed pixel is small, and an export may be enlarged
	return &strips{
		painter: newPainter(maskBudget, legible), picture: picture, palette: palette,
		view: View{Scale: pixelsPerMM, Origin: bounds.Min}.snapped(), bounds: image.Rect(0, 0, int(width), int(height)),
		height: max(1, stripPixels/int(width)),
	}, nil
}

// Image returns the image of the whole picture, on paper with a margin in millimetres, as
// finely as it is written: small text is not left out as on the sheet. Errors are those
// of WritePNG.
func Image(picture *draw.Picture, palette draw.Palette, pixelsPerMM, margin float64) (image.Image, error) {
	out, err := newStrips(picture, palette, pixelsPerMM, margin)
	if err != nil {
		return nil, err
	}
	return out.simplest(), nil
}

// WritePNG writes the image of the whole picture as a PNG that carries its
// resolution, so that it prints at the size of the sheet.
func WritePNG(w io.Writer, picture *draw.Picture, palette draw.Palette, pixelsPerMM, margin float64) error {
	out, err := newStrips(picture, palette, pixelsPerMM, margin)
	if err != nil {
		return err
	}
	return png.Encode(&inserter{to: w, at: headerBytes, what: resolution(pixelsPerMM)}, out.simplest())
}

// headerBytes is the length of the signature and the header of a PNG, after which
// the resolution belongs.
const headerBytes = 33

// inserter puts some bytes into a stream, after so many others.
type inserter struct {
	to   io.Writer
	at   int
	what []byte
}

func (i *inserter) Write(p []byte) (int, error) {
	before := min(i.at, len(p))
	i.at -= before
	if _, err := i.to.Write(p[:before]); err != nil || i.at > 0 {
		return before, err
	}
	if _, err := i.to.Write(i.what); err != nil {
		return before, err
	}
	i.what = nil
	n, err := i.to.Write(p[before:])
	return before + n, err
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
