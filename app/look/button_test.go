package look

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// The focus is seen on a button of each importance, in light and dark.
func TestFocusOfAButton(t *testing.T) {
	for _, row := range []struct {
		name       string
		dark       bool
		importance widget.Importance
		ink        fyne.ThemeColorName
	}{
		{"main, light", false, widget.HighImportance, theme.ColorNameForegroundOnPrimary},
		{"main, dark", true, widget.HighImportance, theme.ColorNameForegroundOnPrimary},
		{"other, light", false, widget.MediumImportance, theme.ColorNameForeground},
		{"other, dark", true, widget.MediumImportance, theme.ColorNameForeground},
	} {
		test.NewTempApp(t).Settings().SetTheme(Theme{Dark: row.dark})
		pressed, focused := 0, 0
		b := NewButton("Mend it", func() { pressed++ })
		b.Importance, b.Focused = row.importance, func() { focused++ }
		w := test.NewTempWindow(t, b)
		if b.ring.get().Visible() {
			t.Errorf("%s: without the focus there is a line", row.name)
		}
		w.Canvas().Focus(b)
		if !b.ring.get().Visible() || focused != 1 {
			t.Errorf("%s: with the focus the line shows: %t, told %d times", row.name, b.ring.get().Visible(), focused)
		}
		if got, want := b.ring.get().StrokeColor, theme.Color(row.ink); got != want {
			t.Errorf("%s: the line is %v, want %v", row.name, got, want)
		}
		if size := b.ring.get().Size(); size.Width <= 0 || size.Width >= b.Size().Width {
			t.Errorf("%s: the line is %v in a button of %v", row.name, size, b.Size())
		}
		test.Tap(b)
		w.Canvas().Unfocus()
		if b.ring.get().Visible() || pressed != 1 {
			t.Errorf("%s: the line stays: %t; pressed %d times", row.name, b.ring.get().Visible(), pressed)
		}
	}
}
