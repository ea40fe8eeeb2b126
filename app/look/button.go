package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Button is a button that shows by a line within its edge that it has the
// focus. Use NewButton, or embed it.
type Button struct {
	widget.Button
	// Focused is called where the button gets the focus; nil for nothing.
	Focused func()
	ring    ring
}

// NewButton returns a button; tapped is called where it is pressed.
func NewButton(text string, tapped func()) *Button {
	b := &Button{}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// NewIconButton returns a button with an icon before its text, which may be
// empty.
func NewIconButton(text string, icon fyne.Resource, tapped func()) *Button {
	b := NewButton(text, tapped)
	b.Icon = icon
	return b
}

// FocusGained shows the line.
func (b *Button) FocusGained() {
	b.ring.get().Show()
	b.Button.FocusGained()
	if b.Focused != nil {
		b.Focused()
	}
}

// FocusLost takes the line away.
func (b *Button) FocusLost() {
	b.ring.get().Hide()
	b.Button.FocusLost()
}

// TypedKey presses the button, also by Enter, and hands on the keys that it has
// no use for.
func (b *Button) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		b.Button.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case fyne.KeySpace:
		b.Button.TypedKey(ev)
	default:
		KeyToWindow(b, ev)
	}
}

// CreateRenderer returns the renderer: that of the toolkit's button, and the
// line above it.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	return b.ring.over(b.Button.CreateRenderer(), func() fyne.ThemeColorName {
		if b.Importance == widget.HighImportance {
			return theme.ColorNameForegroundOnPrimary
		}
		return theme.ColorNameForeground
	})
}
