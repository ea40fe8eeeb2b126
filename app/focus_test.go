package app

import (
	"testing"

	"fyne.io/fyne/v2"
)

// press types the key as the toolkit does: into what has the focus, or else
// into the window.
func press(a *App, name fyne.KeyName) {
	canvas, ev := a.window.Canvas(), &fyne.KeyEvent{Name: name}
	if focused := canvas.Focused(); focused != nil {
		focused.TypedKey(ev)
		return
	}
	canvas.OnTypedKey()(ev)
}

func TestMenuBarKey(t *testing.T) {
	a := start(t)
	toggled := 0
	w := barWindow{a.window, barCanvas{a.window.Canvas(), &toggled}}
	a.window = w
	a.sheet.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF10})
	if toggled != 1 {
		t.Errorf("F10 opened the menu bar %d times, want once", toggled)
	}
	run(t, a, "keys")
	says(t, a, "F10, or Alt alone")
}

// barCanvas is a canvas with a menu bar, which that of the tests has not.
type barCanvas struct {
	fyne.Canvas
	toggled *int
}

// ToggleMenu counts.
func (c barCanvas) ToggleMenu() { *c.toggled++ }

type barWindow struct {
	fyne.Window
	canvas fyne.Canvas
}

// Canvas returns the canvas with the menu bar.
func (w barWindow) Canvas() fyne.Canvas { return w.canvas }

func TestSheetHasTheFocus(t *testing.T) {
	a := start(t)
	sheet := fyne.Focusable(a.sheet)
	if a.window.Canvas().Focused() != sheet {
		t.Error("at the start the sheet has not the focus")
	}
	path := saved(t, house(t), "house.clampline")
	a.workOn(house(t), "")
	focusedField(t, a, "panel-1")
	a.openPath(path)
	if a.window.Canvas().Focused() != sheet {
		t.Error("after a file was opened the sheet has not the focus")
	}
	run(t, a, "about")
	a.focusSheet()
	if a.window.Canvas().Focused() == sheet {
		t.Error("the sheet took the focus from a dialog")
	}
	press(a, fyne.KeyEscape)
	if a.window.Canvas().Focused() != sheet {
		t.Error("after a dialog the sheet has not the focus")
	}
}
