package look

import (
	"image/color"
	"maps"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// contrast is the ratio of WCAG 2.1 (W3C Recommendation, 2018), "contrast
// ratio".
func contrast(a, b color.Color) float64 {
	luminance := func(c color.Color) float64 {
		channel := func(v uint32) float64 {
			s := float64(v) / 65535
			if s <= 0.03928 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		r, g, b, _ := c.RGBA()
		return 0.2126*channel(r) + 0.7152*channel(g) + 0.0722*channel(b)
	}
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func TestOwnColorsAreDefinedInBothThemes(t *testing.T) {
	for _, name := range append(slices.Collect(maps.Keys(colors)), ColorBand, ColorCard, ColorFaint, ColorHeading, ColorHair) {
		own := colors[name]
		if own.light.A == 0 {
			t.Errorf("%s is not defined in light", name)
		}
		if own.dark.A == 0 {
			t.Errorf("%s is not defined in dark", name)
		}
	}
}

func TestTextCanBeRead(t *testing.T) {
	const enough = 4.5 // WCAG 2.1, success criterion 1.4.3
	texts := []fyne.ThemeColorName{theme.ColorNameForeground, ColorFaint, ColorHeading, theme.ColorNameError, theme.ColorNameWarning, theme.ColorNameSuccess}
	for _, dark := range []bool{false, true} {
		look := Theme{Dark: dark}
		for _, text := range texts {
			for _, ground := range []fyne.ThemeColorName{ColorBand, ColorCard} {
				got := contrast(look.Color(text, 0), look.Color(ground, 0))
				if got < enough {
					t.Errorf("dark %v: %s on %s has contrast %.2f, want %.1f", dark, text, ground, got, enough)
				}
			}
		}
		on := contrast(look.Color(theme.ColorNameForegroundOnPrimary, 0), look.Color(theme.ColorNamePrimary, 0))
		if on < enough {
			t.Errorf("dark %v: text on a main button has contrast %.2f, want %.1f", dark, on, enough)
		}
	}
}

func TestFaint(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(Theme{})
	f := NewFaintParagraph("short")
	one := f.MinSize().Height
	w := test.NewWindow(container.NewVBox(f))
	w.Resize(fyne.NewSize(100, 300))
	f.SetText("a text that is much longer than the window is wide")
	if got := f.MinSize().Height; got < 2*one {
		t.Errorf("a long text is %g high, one line %g; want several lines", got, one)
	}
	if got := NewFaint("a text that is much longer than the window is wide").MinSize(); got.Height > one || got.Width < 200 {
		t.Errorf("in one line it is %v", got)
	}
	if f.text.Style.ColorName != ColorFaint || f.Text() != f.String() {
		t.Errorf("%q is written as %q in %s", f.Text(), f.String(), f.text.Style.ColorName)
	}
}
