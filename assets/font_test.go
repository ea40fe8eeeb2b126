package assets

import (
	"os"
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"
)

func TestFontsHaveTheSignsOfTheSheet(t *testing.T) {
	const signs = "AZaz09 °±×·µΩΔδφπ²³₁₂≤≥≈∠√→∞△Yé"
	for name, ttf := range map[string][]byte{"DejaVu Sans": FontRegular(), "DejaVu Sans Bold": FontBold()} {
		parsed, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if got, err := parsed.Name(nil, sfnt.NameIDFull); err != nil || got != name {
			t.Errorf("name: got %q, %v, want %q", got, err, name)
		}
		for _, sign := range signs {
			if glyph, err := parsed.GlyphIndex(nil, sign); err != nil || glyph == 0 {
				t.Errorf("%s: no glyph for %q (%v)", name, sign, err)
			}
		}
	}
}

func TestFontsComeWithTheirLicence(t *testing.T) {
	text, err := os.ReadFile("fonts/LICENSE-DejaVu.txt")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), "Bitstream Vera Fonts Copyright") {
		t.Error("fonts/LICENSE-DejaVu.txt is not the licence of the fonts")
	}
}
