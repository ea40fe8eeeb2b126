package edit_test

import (
	"math"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
)

// A click may miss a thing by 6 px, whatever the zoom.
func TestHowFarAClickMayMiss(t *testing.T) {
	for _, steps := range []int{0, 4, -4} {
		d := drive(t)
		d.ZoomAt(d.View().ToScreen(d.View().Middle()), steps)
		mm := 1 / d.View().Scale // of a pixel
		for px, want := range map[float64]string{5.9: "load-1", 6.1: ""} {
			if d.Click(76-px*mm, 60); selected(d) != want { // its left edge lies at 76
				t.Errorf("zoom by %d steps, %g px beside: selected %q, want %q", steps, px, selected(d), want)
			}
		}
	}
}

// Seen from afar a symbol can still be moved: its terminal takes 1.5 mm round it.
func TestTerminalsFromAfar(t *testing.T) {
	d := drive(t)
	d.ZoomAt(edit.ScreenPoint{X: 600, Y: 400}, -8)
	for y, want := range map[float64]edit.Cursor{56.4: edit.Cross, 57: edit.Move} { // the terminal lies at 55
		if d.Hover(80, y); d.Cursor() != want {
			t.Errorf("at %g: cursor %d, want %d", y, d.Cursor(), want)
		}
	}
}

// What is small is shown at 200 % where it is asked for alone.
func TestSelectionIsShownAtTwice(t *testing.T) {
	d := drive(t)
	d.Select("load-1")
	d.ZoomToSelection()
	if got := d.View().Percent(); math.Abs(got-200) > near*200 {
		t.Errorf("got %g %%, want 200 %%", got)
	}
}

func TestTurnedAllRound(t *testing.T) {
	for keys, want := range map[string]int{"R": 1, "Shift+R": 3} {
		d := drive(t)
		d.Arm(diagram.Load)
		d.Key(keys, keys, keys, keys, keys).Click(-80, 120)
		if got, _ := d.Document().Part("load-2"); got.Turn != want {
			t.Errorf("five times %s: got %d quarter turns, want %d", keys, got.Turn, want)
		}
	}
}
