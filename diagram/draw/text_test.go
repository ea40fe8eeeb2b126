package draw

import (
	"encoding/xml"
	"io"
	"math"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"

	"clampline/assets"
)

// The advances are checked against another reader of the same font: x/image's
// opentype face at a thousand pixels to the em.
func TestTextWidthIsSumOfAdvances(t *testing.T) {
	const em = 1000
	texts := []string{"", "Main switchboard", "1 240 V L-G · 31 % of 4.0 kV", "≤ ≥ ≈ ∠ √ → ∞ △ Ω µ ² ₁", "地", "ÿĀāȀ"}
	for _, bold := range []bool{false, true} {
		file := assets.FontRegular()
		if bold {
			file = assets.FontBold()
		}
		parsed, err := opentype.Parse(file)
		if err != nil {
			t.Fatal(err)
		}
		face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: em, DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range texts {
			want := 0.0
			for _, r := range s {
				advance, _ := face.GlyphAdvance(r)
				want += float64(advance) / 64
			}
			// Font units are 1/2048 em, the face rounds to 1/64 pixel.
			if got := TextWidth(s, em, bold); math.Abs(got-want) > 0.02*float64(len(s)) {
				t.Errorf("%q bold %v: got %v, want %v", s, bold, got, want)
			}
		}
	}
}

func TestTextWidthScales(t *testing.T) {
	one, three := TextWidth("Bus", 1, false), TextWidth("Bus", 3, false)
	if math.Abs(three-3*one) > exact || TextWidth("Bus", 1, true) <= one {
		t.Errorf("widths %v, %v and bold %v", one, three, TextWidth("Bus", 1, true))
	}
}

func TestTextWidthFromManyGoroutines(t *testing.T) {
	want := TextWidth("Δ Ω 480Y/277", 3, false)
	fresh := newMetrics(assets.FontRegular())
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			sum := 0
			for _, r := range "Δ Ω 480Y/277" {
				sum += int(fresh.page(r)[r%pageSize])
			}
			if got := float64(sum) * 3 / fresh.units; got != want {
				t.Errorf("got %v, want %v", got, want)
			}
		})
	}
	group.Wait()
}

// From the font's own tables, as font editors show them: 2048 units to the em,
// hhea ascender 1901 and descender -483, the top of H at 1493.
func TestFontHeights(t *testing.T) {
	for name, test := range map[string]struct{ got, units float64 }{
		"ascent": {Ascent(1), 1901}, "descent": {Descent(1), 483}, "capital": {CapHeight(1), 1493},
	} {
		if want := test.units / 2048; math.Abs(test.got-want) > 1e-4 {
			t.Errorf("%s: got %v, want %v", name, test.got, want)
		}
	}
}

func TestTextBoundsFollowAlignment(t *testing.T) {
	width := TextWidth("Pump", 3, false)
	for align, left := range map[Align]float64{Left: 0, Center: -width / 2, Right: -width} {
		got := Text{Size: 3, Align: align, String: "Pump"}.Bounds()
		if want := rect(left, -Ascent(3), left+width, Descent(3)); !near(got, want, exact) {
			t.Errorf("%s: got %v, want %v", align, got, want)
		}
	}
}

func TestPrintable(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"plain", "Lab panel LP-1, 208Y/120 Ω", "Lab panel LP-1, 208Y/120 Ω"},
		{"line ends and tabs", "a\r\nb\tc", "a  b c"},
		{"controls", "a\x00b\x1bc\u0085d", "abcd"},
		{"broken UTF-8", "a\xff\xfeb", "a\ufffdb"},
		{"turned direction", "a\u202eb\u2066c", "abc"},
		{"noncharacters", "a\ufffe\uffff\ufdd0b", "ab"},
		{"marks of XML", "<a b=\"&\">", "<a b=\"&\">"},
		{"replacement character itself", "a\ufffdb", "a\ufffdb"},
	}
	for _, test := range tests {
		if got := printable(test.text); got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
	}
}

// The edges of what is text by the Unicode Standard 15.0: controls are U+0000 to
// U+001F and U+007F to U+009F (table 23-1), noncharacters U+FDD0 to U+FDEF and the
// last two of each plane (23.7), and the marks that turn the direction U+200E,
// U+200F, U+202A to U+202E and U+2066 to U+2069 (Annex 9, table 1).
func TestPrintableEdges(t *testing.T) {
	for _, edge := range []struct {
		first, last rune // that are taken out
	}{
		{0x00, 0x08}, {0x0b, 0x0c}, {0x0e, 0x1f}, {0x7f, 0x9f}, {0x200e, 0x200f}, {0x202a, 0x202e}, {0x2066, 0x2069},
		{0xfdd0, 0xfdef}, {0xfffe, 0xffff}, {0x1fffe, 0x1ffff}, {0x10fffe, 0x10ffff},
	} {
		for _, row := range []struct {
			r    rune
			text bool
		}{{edge.first - 1, true}, {edge.first, false}, {edge.last, false}, {edge.last + 1, true}} {
			if row.r < ' ' && row.text || row.r > 0x10ffff {
				continue // an end of line, a tab, or nothing at all
			}
			want := map[bool]string{true: "a" + string(row.r) + "b", false: "ab"}[row.text]
			if got := printable("a" + string(row.r) + "b"); got != want {
				t.Errorf("%U: got %q, want %q", row.r, got, want)
			}
		}
	}
}

func FuzzPrintable(f *testing.F) {
	for _, s := range []string{"Main", "a\x00\xff", "\u202e\ufffe", "]]>", "𝄞"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := printable(s)
		if !utf8.ValidString(got) || printable(got) != got {
			t.Fatalf("%q became %q", s, got)
		}
		decoder := xml.NewDecoder(strings.NewReader("<a>" + strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(got) + "</a>"))
		for {
			if _, err := decoder.Token(); err == io.EOF {
				return
			} else if err != nil {
				t.Fatalf("%q: %v", got, err)
			}
		}
	})
}
