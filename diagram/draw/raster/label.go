package raster

import (
	"image"
	"math"
	"sync"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"

	"clampline/assets"
	"clampline/diagram/draw"
)

// faceKey names a font at one size, in quarters of a pixel to the em.
type faceKey struct {
	bold bool
	size int
}

type face struct{ font.Face }

const (
	// facesKept bounds the memory of faces: a face caches glyphs and is dear to
	// make, but labels are cached as well, so few are in use at once.
	facesKept = 24
	// widestLabel is where a line of text is cut off, in pixels, so that one
	// hostile name cannot take all memory.
	widestLabel = 1 << 13
	// largestText is the size in pixels above which text is not drawn: a letter
	// would fill the window.
	largestText = 1 << 10
)

// glyphsKept returns how many glyphs a face of the given size in pixels caches,
// a power of two: a face sets aside room for the widest glyph for each.
func glyphsKept(size float64) int {
	switch {
	case size <= 32:
		return 128
	case size <= 128:
		return 16
	}
	return 1
}

// label returns the mask of a line of text whose em has the given size in
// pixels, from the start of its baseline, and the text's width in pixels.
func (p *Painter) label(t draw.Text, size float64) (*image.Alpha, float64) {
	width := draw.TextWidth(t.String, size, t.Bold)
	quarters := int(math.Round(size * 4))
	key := maskKey{kind: labelMask, text: t.String, size: float64(quarters)}
	if t.Bold {
		key.turn = 1
	}
	layers, ok := p.cache.get(key)
	if !ok {
		layers = []layer{{draw.RoleInk, p.letters(t.String, faceKey{t.Bold, quarters})}}
		p.cache.put(key, layers)
	}
	return layers[0].mask, width
}

// letters draws a line of text.
func (p *Painter) letters(s string, key faceKey) *image.Alpha {
	size := float64(key.size) / 4
	width := math.Min(draw.TextWidth(s, size, key.bold), widestLabel)
	room := size / 2 // letters may reach beyond their advance
	mask := image.NewAlpha(image.Rect(
		int(-room), -int(math.Ceil(draw.Ascent(size)+room)),
		int(math.Ceil(width+room)), int(math.Ceil(draw.Descent(size)+room))))
	face := p.face(key)
	var dot fixed.Point26_6
	for _, r := range s {
		at, glyph, from, advance, ok := face.Glyph(dot, r)
		if !ok {
			continue
		}
		if dot.X.Ceil() > widestLabel {
			break
		}
		if shape, isAlpha := glyph.(*image.Alpha); isAlpha {
			overlay(mask, at, shape, from)
		}
		dot.X += advance
	}
	return trimmed(mask)
}

// face returns the font at one size.
func (p *Painter) face(key faceKey) *face {
	if found, ok := p.faces[key]; ok {
		return found
	}
	if len(p.faces) >= facesKept {
		clear(p.faces)
	}
	size := float64(key.size) / 4
	made := &face{truetype.NewFace(typeface(key.bold), &truetype.Options{
		Size: size, DPI: 72, Hinting: font.HintingNone, GlyphCacheEntries: glyphsKept(size),
	})}
	p.faces[key] = made
	return made
}

// overlay lays the part of a mask that begins at from over the pixels of
// another at to.
func overlay(dst *image.Alpha, to image.Rectangle, mask *image.Alpha, from image.Point) {
	r := to.Intersect(dst.Rect)
	from = from.Add(r.Min.Sub(to.Min))
	for y := range r.Dy() {
		there := dst.Pix[dst.PixOffset(r.Min.X, r.Min.Y+y):][:r.Dx()]
		cover := mask.Pix[mask.PixOffset(from.X, from.Y+y):][:r.Dx()]
		for i, a := range cover {
			if a != 0 {
				there[i] = join(there[i], a)
			}
		}
	}
}

var (
	regularFont = sync.OnceValue(func() *truetype.Font { return parsed(assets.FontRegular()) })
	boldFont    = sync.OnceValue(func() *truetype.Font { return parsed(assets.FontBold()) })
)

func typeface(bold bool) *truetype.Font {
	if bold {
		return boldFont()
	}
	return regularFont()
}

// parsed reads a font that is part of the program, so that it cannot be broken
// except by whoever builds it.
func parsed(ttf []byte) *truetype.Font {
	out, err := truetype.Parse(ttf)
	if err != nil {
		panic("raster: built-in font: " + err.Error())
	}
	return out
}
