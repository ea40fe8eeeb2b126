package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// clickable is an object that can be clicked.
type clickable struct {
	widget.BaseWidget
	object fyne.CanvasObject
	tapped func()
}

var (
	_ fyne.Tappable      = (*clickable)(nil)
	_ desktop.Cursorable = (*clickable)(nil)
)

func newClickable(object fyne.CanvasObject, tapped func()) *clickable {
	p := &clickable{object: object, tapped: tapped}
	p.ExtendBaseWidget(p)
	return p
}

// Tapped does what a click is to do.
func (p *clickable) Tapped(*fyne.PointEvent) { p.tapped() }

// Cursor is a hand.
func (p *clickable) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer returns the renderer: the object.
func (p *clickable) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.object) }
