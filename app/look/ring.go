package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// ring is a line within the edge of a widget that shows that it has the focus.
// The toolkit only blends its colour, which on a dark ground, and on a button
// of high importance, is no change that can be seen. The zero value is hidden.
type ring struct{ line *canvas.Rectangle }

// The line of the focus, px.
const (
	ringWidth = 1.5
	ringInset = 2
)

// get returns the line, made at the first call.
func (r *ring) get() *canvas.Rectangle {
	if r.line == nil {
		r.line = canvas.NewRectangle(color.Transparent)
		r.line.StrokeWidth = ringWidth
		r.line.Hide()
	}
	return r.line
}

// over returns a renderer with the line above what another one draws, in the
// colour that ink returns.
func (r *ring) over(inner fyne.WidgetRenderer, ink func() fyne.ThemeColorName) fyne.WidgetRenderer {
	return &ringRenderer{inner, r.get(), ink}
}

type ringRenderer struct {
	fyne.WidgetRenderer
	line *canvas.Rectangle
	ink  func() fyne.ThemeColorName
}

// Objects returns those of the widget, and the line.
func (r *ringRenderer) Objects() []fyne.CanvasObject {
	inner := r.WidgetRenderer.Objects()
	return append(inner[:len(inner):len(inner)], r.line)
}

// Layout places them.
func (r *ringRenderer) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.line.Move(fyne.NewPos(ringInset, ringInset))
	r.line.Resize(size.SubtractWidthHeight(2*ringInset, 2*ringInset))
}

// Refresh takes the colours of the theme.
func (r *ringRenderer) Refresh() {
	r.WidgetRenderer.Refresh()
	r.line.StrokeColor = theme.Color(r.ink())
	r.line.CornerRadius = max(theme.Size(theme.SizeNameButtonRadius)-ringInset, 0)
	r.line.Refresh()
}

// plainInk is the colour of the line on an ordinary ground.
func plainInk() fyne.ThemeColorName { return theme.ColorNameForeground }
