package look

import (
	"testing"

	"fyne.io/fyne/v2/test"
)

// A ground has the colour of the theme that is set now.
func TestGround(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(Theme{})
	g := NewGround(ColorBand)
	for _, dark := range []bool{false, true, false} {
		a.Settings().SetTheme(Theme{Dark: dark})
		g.Refresh()
		if want := (Theme{Dark: dark}).Color(ColorBand, 0); g.area.FillColor != want {
			t.Errorf("dark %t: got %v, want %v", dark, g.area.FillColor, want)
		}
	}
}
