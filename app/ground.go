package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// ground is a plain area in a colour of the theme, also after the theme has
// changed.
type ground struct {
	widget.BaseWidget
	name fyne.ThemeColorName
	area *canvas.Rectangle
}

func newGround(name fyne.ThemeColorName) *ground {
	g := &ground{name: name, area: canvas.NewRectangle(theme.Color(name))}
	g.ExtendBaseWidget(g)
	return g
}

// Refresh takes the colour of the theme as it is now.
func (g *ground) Refresh() {
	g.area.FillColor = theme.Color(g.name)
	g.BaseWidget.Refresh()
}

// CreateRenderer returns the renderer: one rectangle.
func (g *ground) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(g.area) }
