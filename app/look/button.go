package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Button is a button that shows by a line within its edge that it has the
// focus. The toolkit only blends its colour, which on a button of high
// importance is no change that can be seen. Use NewButton.
type Button struct {
	widget.Button
	// Focused is called where the button gets the focus; nil for nothing.
	Focused func()
	ring    *canvas.Rectangle
}

// The line of the focus, px.
const (
	ringWidth = 1.5
	ringInset = 2
)

// NewButton returns a button; tapped is called where it is pressed.
func NewButton(text string, tapped func()) *Button {
	b := &Button{ring: canvas.NewRectangle(color.Transparent)}
	b.Text, b.OnTapped = text, tapped
	b.ring.StrokeWidth = ringWidth
	b.ring.Hide()
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained shows the line.
func (b *Button) FocusGained() {
	b.ring.Show()
	b.Button.FocusGained()
	if b.Focused != nil {
		b.Focused()
	}
}

// FocusLost takes the line away.
func (b *Button) FocusLost() {
	b.ring.Hide()
	b.Button.FocusLost()
}

// CreateRenderer returns the renderer: that of the toolkit's button, and the
// line above it.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	return &buttonRenderer{b.Button.CreateRenderer(), b}
}

type buttonRenderer struct {
	fyne.WidgetRenderer
	button *Button
}

// Objects returns those of the button, and the line.
func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	inner := r.WidgetRenderer.Objects()
	return append(inner[:len(inner):len(inner)], r.button.ring)
}

// Layout places them.
func (r *buttonRenderer) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.button.ring.Move(fyne.NewPos(ringInset, ringInset))
	r.button.ring.Resize(size.SubtractWidthHeight(2*ringInset, 2*ringInset))
}

// Refresh takes the colours of the theme.
func (r *buttonRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	ink := theme.ColorNameForeground
	if r.button.Importance == widget.HighImportance {
		ink = theme.ColorNameForegroundOnPrimary
	}
	r.button.ring.StrokeColor = theme.Color(ink)
	r.button.ring.CornerRadius = max(theme.Size(theme.SizeNameButtonRadius)-ringInset, 0)
	r.button.ring.Refresh()
}
