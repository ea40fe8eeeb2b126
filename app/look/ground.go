package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Ground is a plain area in a colour of the theme, also after the theme has
// changed. Use NewGround.
type Ground struct {
	widget.BaseWidget
	name fyne.ThemeColorName
	area *canvas.Rectangle
}

// NewGround returns an area in the colour with the name.
func NewGround(name fyne.ThemeColorName) *Ground {
	g := &Ground{name: name, area: canvas.NewRectangle(theme.Color(name))}
	g.ExtendBaseWidget(g)
	return g
}

// Refresh takes the colour of the theme as it is now.
func (g *Ground) Refresh() {
	g.area.FillColor = theme.Color(g.name)
	g.BaseWidget.Refresh()
}

// CreateRenderer returns the renderer: one rectangle.
func (g *Ground) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(g.area) }
