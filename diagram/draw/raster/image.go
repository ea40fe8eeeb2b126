package raster

import (
	"image"
	_ "image/jpeg" // a logo may be one
	_ "image/png"
	"strings"

	imagedraw "golang.org/x/image/draw"

	"clampline/diagram/draw"
)

// Image draws an image of pixels. In a stamp, which is kept as masks, and where
// the data are no image, it is left out.
func (b *brush) Image(i draw.Image) {
	to, ok := b.surface.(*screen)
	if !ok {
		return
	}
	pixels := b.painter.decoded(i.Data)
	if pixels == nil {
		return
	}
	imagedraw.ApproxBiLinear.Scale(to.image, b.block(i.Box), pixels, pixels.Bounds(), imagedraw.Over, nil)
}

// decoded returns the pixels of an image, or nil. The last one is kept: a document
// has one logo, on every page.
func (p *Painter) decoded(data string) image.Image {
	if p.logo.data != data {
		pixels, _, err := image.Decode(strings.NewReader(data))
		if err != nil {
			pixels = nil
		}
		p.logo = logo{data, pixels}
	}
	return p.logo.pixels
}

// logo is an image that was decoded; pixels are nil where it is none.
type logo struct {
	data   string
	pixels image.Image
}
