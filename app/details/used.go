package details

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// ground lies below what the panel shows, and notes clicks that meet nothing
// else.
type ground struct {
	widget.BaseWidget
	used func()
}

var _ fyne.Tappable = (*ground)(nil)

// Tapped notes the click.
func (g *ground) Tapped(*fyne.PointEvent) { g.used() }

// CreateRenderer returns the renderer: of nothing.
func (g *ground) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// on lays an object on a ground.
func (p *Panel) on(o fyne.CanvasObject) fyne.CanvasObject {
	g := &ground{used: func() { p.use(true) }}
	g.ExtendBaseWidget(g)
	return container.NewStack(g, o)
}

// use notes whether the panel is what was last used.
func (p *Panel) use(now bool) { p.used = now }

// Used reports whether the panel is what was last used, also where none of its
// fields has the focus: what is typed then is no command.
func (p *Panel) Used() bool { return p.used }

// Unuse notes that something else is used.
func (p *Panel) Unuse() { p.use(false) }

// button is one of the panel.
func (p *Panel) button(label string, icon fyne.Resource, tapped func()) *look.Button {
	return look.NewIconButton(label, icon, func() { p.use(true); tapped() })
}
