package sheet

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

func TestKeyName(t *testing.T) {
	for name, want := range map[fyne.KeyName]string{
		fyne.KeyReturn: edit.KeyEnter, fyne.KeyEnter: edit.KeyEnter, fyne.KeyEscape: edit.KeyEscape, fyne.KeyTab: edit.KeyTab,
		fyne.KeyDelete: edit.KeyDelete, fyne.KeyBackspace: edit.KeyBackspace, fyne.KeyPageUp: edit.KeyPageUp, fyne.KeyPageDown: edit.KeyPageDown,
		fyne.KeyUp: edit.KeyUp, fyne.KeyDown: edit.KeyDown, fyne.KeyLeft: edit.KeyLeft, fyne.KeyRight: edit.KeyRight,
		fyne.KeyR: "R", fyne.Key1: "1", fyne.KeyLeftBracket: "[", fyne.KeyF1: "F1",
		fyne.KeySpace: "", fyne.KeyUnknown: "", desktop.KeyShiftLeft: "", desktop.KeyControlRight: "", desktop.KeyAltLeft: "", desktop.KeySuperRight: "",
	} {
		if got := KeyName(name); got != want {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
		if back := ToolkitKey(want); want != "" && name != fyne.KeyEnter && back != name {
			t.Errorf("%s: the toolkit is said to call it %q", name, back)
		}
	}
}

// Every key of a command without a modifier can be typed.
func TestEveryPlainKeyHasItsName(t *testing.T) {
	typed := map[string]bool{}
	for _, name := range []fyne.KeyName{
		fyne.KeyReturn, fyne.KeyEscape, fyne.KeyTab, fyne.KeyDelete, fyne.KeyBackspace, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight,
		fyne.KeyLeftBracket, fyne.KeyRightBracket, fyne.KeyB, fyne.KeyC, fyne.KeyO, fyne.KeyP, fyne.KeyR,
		fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9,
	} {
		typed[KeyName(name)] = true
	}
	for _, c := range edit.Commands() {
		for _, key := range c.Keys {
			if key.Modifiers&^edit.Shift == 0 && !typed[key.Name] {
				t.Errorf("the key %q of %q is none of the toolkit's", key.Name, c.Name)
			}
		}
	}
}

func TestTabStaysOnTheSheet(t *testing.T) {
	h := newHand(t, house(t))
	if !h.AcceptsTab() {
		t.Error("Tab leaves the sheet")
	}
	h.key(fyne.KeyTab)
	if got := h.editor.Selection(); !slices.Equal(got, []diagram.ID{"supply-1"}) {
		t.Errorf("Tab selects %v, want the first part", got)
	}
	h.key(fyne.KeyTab)
	h.held = fyne.KeyModifierShift
	h.key(fyne.KeyTab)
	if got := h.editor.Selection(); !slices.Equal(got, []diagram.ID{"supply-1"}) {
		t.Errorf("forth and back selects %v, want the first part", got)
	}
}

func TestKeysMoveTheSelection(t *testing.T) {
	h := newHand(t, house(t))
	h.editor.Select("load-1")
	h.key(fyne.KeyRight, desktop.KeyShiftLeft)
	h.held = fyne.KeyModifierShift
	h.key(fyne.KeyDown)
	if got, want := h.part("load-1").At, geom.Pt(5, 101); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestKeyIsOfferedToTheWindowFirst(t *testing.T) {
	h := newHand(t, house(t))
	var offered []edit.Key
	h.Key = func(k edit.Key) bool { offered = append(offered, k); return k.Name == "F1" }
	h.editor.Select("load-1")
	h.held = fyne.KeyModifierShift
	h.key(fyne.KeyF1, fyne.KeyRight)
	if want := []edit.Key{{Modifiers: edit.Shift, Name: "F1"}, {Modifiers: edit.Shift, Name: edit.KeyRight}}; !slices.Equal(offered, want) {
		t.Errorf("got %v, want %v", offered, want)
	}
	if got := h.part("load-1").At; got != geom.Pt(1, 100) {
		t.Errorf("a key that the window does not take leads to %v", got)
	}
}

func TestShortcutGoesToTheWindow(t *testing.T) {
	h := newHand(t, house(t))
	h.TypedShortcut(&fyne.ShortcutUndo{}) // nobody listens
	got := ""
	h.Shortcut = func(s fyne.Shortcut) { got = s.ShortcutName() }
	h.TypedShortcut(&fyne.ShortcutUndo{})
	if got != "Undo" {
		t.Errorf("got %q", got)
	}
}

// The space bar may come up while something else has the focus.
func TestSpaceIsForgottenWithTheFocus(t *testing.T) {
	h := newHand(t, house(t))
	h.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	h.FocusLost()
	h.drag(pump, geom.Pt(60, 120))
	if h.part("load-1").At == pump {
		t.Error("the drag pans, as if the space bar were held")
	}
}

// The key that shows the other plan does so as long as it is held, and not longer
// where its release goes elsewhere.
func TestHeldKeyShowsTheOtherPlan(t *testing.T) {
	for name, release := range map[string]func(*hand){
		"let go":         func(h *hand) { h.KeyUp(&fyne.KeyEvent{Name: fyne.KeyB}) },
		"the focus goes": func(h *hand) { h.FocusLost() },
	} {
		h := newHand(t, house(t))
		if _, err := h.editor.AddPlan("", ""); err != nil {
			t.Fatal(err)
		}
		changed := 0
		h.Changed = func() { changed++ }
		h.KeyDown(&fyne.KeyEvent{Name: fyne.KeyB})
		h.key(fyne.KeyB, fyne.KeyB)
		if got := h.editor.Plan(); got != diagram.FirstPlan || changed == 0 {
			t.Errorf("%s: while it is held %s is shown, told %d times", name, got, changed)
		}
		told := changed
		release(h)
		if got := h.editor.Plan(); got != "plan-2" || changed == told {
			t.Errorf("%s: then %s is shown, told %d times", name, got, changed-told)
		}
	}
}
