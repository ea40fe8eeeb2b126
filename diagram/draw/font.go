package draw

import (
	"math"
	"sync"
	"sync/atomic"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"clampline/assets"
)

// TextWidth returns the width of s in millimetres, set in DejaVu Sans at the
// given size in millimetres, as the sum of the advances of its characters.
// Pairs are not kerned, here or by the painters.
func TextWidth(s string, size float64, bold bool) float64 {
	face := regular()
	if bold {
		face = boldFace()
	}
	sum := 0
	first := face.page(0)
	for _, r := range s {
		if r < pageSize {
			sum += int(first[r])
		} else {
			sum += int(face.page(r)[r%pageSize])
		}
	}
	return float64(sum) * size / face.units
}

// Ascent returns how far letters of the given size reach above the baseline,
// accents included, in the unit of size.
func Ascent(size float64) float64 { return size * regular().ascent }

// Descent returns how far letters of the given size reach below the baseline,
// in the unit of size.
func Descent(size float64) float64 { return size * regular().descent }

// CapHeight returns the height of a capital letter of the given size, in the
// unit of size.
func CapHeight(size float64) float64 { return size * regular().capital }

var (
	regular  = sync.OnceValue(func() *metrics { return newMetrics(assets.FontRegular()) })
	boldFace = sync.OnceValue(func() *metrics { return newMetrics(assets.FontBold()) })
)

// metrics measures one font. Advances are kept in pages that are filled when
// first asked for; two goroutines that fill the same page fill it alike.
type metrics struct {
	font                     *sfnt.Font
	units                    float64 // font units to the em
	ascent, descent, capital float64 // shares of the em
	pages                    [0x110000 / pageSize]atomic.Pointer[page]
}

const pageSize = 256

type page [pageSize]uint16

// newMetrics reads a font that is part of the program, so that it cannot be
// broken except by whoever builds it.
func newMetrics(ttf []byte) *metrics {
	parsed, err := sfnt.Parse(ttf)
	if err != nil {
		panic("draw: built-in font: " + err.Error())
	}
	units := fixed.Int26_6(parsed.UnitsPerEm())
	measured, err := parsed.Metrics(nil, units<<6, font.HintingNone)
	if err != nil {
		panic("draw: built-in font: " + err.Error())
	}
	share := func(v fixed.Int26_6) float64 { return float64(v) / 64 / float64(units) }
	return &metrics{
		font: parsed, units: float64(units),
		ascent: share(measured.Ascent), descent: share(measured.Descent),
		// sfnt counts the capital height downward in fonts that do not state it.
		capital: math.Abs(share(measured.CapHeight)),
	}
}

// page returns the advances of r and its neighbours in font units; a character
// the font lacks has that of its box.
func (m *metrics) page(r rune) *page {
	slot := &m.pages[r/pageSize]
	have := slot.Load()
	if have == nil {
		have = m.fill(r - r%pageSize)
		slot.Store(have)
	}
	return have
}

func (m *metrics) fill(first rune) *page {
	var buffer sfnt.Buffer
	out := new(page)
	for i := range out {
		glyph, err := m.font.GlyphIndex(&buffer, first+rune(i))
		if err != nil {
			continue
		}
		wide, err := m.font.GlyphAdvance(&buffer, glyph, fixed.Int26_6(m.units)<<6, font.HintingNone)
		if err == nil {
			out[i] = uint16(wide >> 6)
		}
	}
	return out
}
