package sheet

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/diagram/edit"
)

var (
	_ fyne.Focusable    = (*Sheet)(nil)
	_ fyne.Tabbable     = (*Sheet)(nil)
	_ fyne.Shortcutable = (*Sheet)(nil)
	_ desktop.Keyable   = (*Sheet)(nil)
)

func (s *Sheet) focus() { s.focusOn(s) }

func (s *Sheet) focusOn(field fyne.Focusable) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(field)
	}
}

// focusedElsewhere returns what else than the sheet has the focus, or nil.
func (s *Sheet) focusedElsewhere() fyne.Focusable {
	c := fyne.CurrentApp().Driver().CanvasForObject(s)
	if c == nil || c.Focused() == fyne.Focusable(s) {
		return nil
	}
	return c.Focused()
}

// FocusGained shows nothing: the selection shows where the keys go. It tells that
// they go to the sheet.
func (s *Sheet) FocusGained() {
	if s.Focused != nil {
		s.Focused()
	}
}

// FocusLost forgets the space bar and comes back from another plan: the release of
// their keys goes elsewhere.
func (s *Sheet) FocusLost() {
	s.space = false
	s.handle(edit.Event{Kind: edit.KeyRelease, Key: edit.KeyGlance})
}

// AcceptsTab keeps the Tab key, which walks through the parts, where there are
// any.
func (s *Sheet) AcceptsTab() bool {
	parts, _, _ := s.editor.Document().Count()
	return parts > 0
}

// TypedRune does nothing: keys come as TypedKey.
func (s *Sheet) TypedRune(rune) {}

// KeyDown notes the space bar, which pans.
func (s *Sheet) KeyDown(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeySpace {
		s.space = true
	}
}

// KeyUp notes that the space bar came up, or tells the editor of another key.
func (s *Sheet) KeyUp(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeySpace {
		s.space = false
	}
	if name := KeyName(ev.Name); name != "" {
		s.handle(edit.Event{Kind: edit.KeyRelease, Key: name})
	}
}

// TypedKey hands the key to the editor, unless the window takes it.
func (s *Sheet) TypedKey(ev *fyne.KeyEvent) {
	name := KeyName(ev.Name)
	if name == "" {
		return
	}
	pressed := edit.Key{Modifiers: s.modifiers(s.heldKeys()), Name: name}
	if s.Key == nil || !s.Key(pressed) {
		s.handle(edit.Event{Kind: edit.KeyPress, Key: name, Modifiers: pressed.Modifiers})
	}
}

// TypedShortcut hands the shortcut to the window.
func (s *Sheet) TypedShortcut(shortcut fyne.Shortcut) {
	if s.Shortcut != nil {
		s.Shortcut(shortcut)
	}
}

func (s *Sheet) heldKeys() fyne.KeyModifier {
	if s.Modifiers == nil {
		return 0
	}
	return s.Modifiers()
}

func (s *Sheet) modifiers(mods fyne.KeyModifier) edit.Modifiers {
	var out edit.Modifiers
	for _, m := range []struct {
		held bool
		as   edit.Modifiers
	}{
		{mods&fyne.KeyModifierShift != 0, edit.Shift},
		{mods&fyne.KeyModifierShortcutDefault != 0, edit.Control},
		{mods&fyne.KeyModifierAlt != 0, edit.Alt},
		{s.space, edit.Space},
	} {
		if m.held {
			out |= m.as
		}
	}
	return out
}

// ToolkitKey returns what the toolkit calls a key of the editor.
func ToolkitKey(name string) fyne.KeyName {
	switch name {
	case edit.KeyEnter:
		return fyne.KeyReturn
	case edit.KeyPageUp:
		return fyne.KeyPageUp
	case edit.KeyPageDown:
		return fyne.KeyPageDown
	case edit.KeyBackspace:
		return fyne.KeyBackspace
	}
	return fyne.KeyName(name)
}

// KeyName returns what the editor calls a key of the toolkit, or nothing for
// keys that are only held.
func KeyName(name fyne.KeyName) string {
	switch name {
	case fyne.KeyReturn, fyne.KeyEnter:
		return edit.KeyEnter
	case fyne.KeyPageUp:
		return edit.KeyPageUp
	case fyne.KeyPageDown:
		return edit.KeyPageDown
	case fyne.KeySpace, fyne.KeyUnknown, desktop.KeyShiftLeft, desktop.KeyShiftRight, desktop.KeyControlLeft,
		desktop.KeyControlRight, desktop.KeyAltLeft, desktop.KeyAltRight, desktop.KeySuperLeft, desktop.KeySuperRight:
		return ""
	case fyne.KeyUp:
		return edit.KeyUp
	case fyne.KeyDown:
		return edit.KeyDown
	case fyne.KeyLeft:
		return edit.KeyLeft
	case fyne.KeyRight:
		return edit.KeyRight
	case fyne.KeyEscape:
		return edit.KeyEscape
	case fyne.KeyTab:
		return edit.KeyTab
	case fyne.KeyDelete:
		return edit.KeyDelete
	case fyne.KeyBackspace:
		return edit.KeyBackspace
	}
	return string(name)
}
