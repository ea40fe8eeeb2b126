package drawer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// list is a list in which keys move a cursor of its own: the toolkit's tells
// nobody when it moves.
type list struct {
	widget.List
	step    func(by int) // moves the cursor by so many lines
	enter   func()       // goes where the cursor is
	fold    func(bool)   // folds or unfolds the group that the cursor is in
	focused bool
}

// pageLines is by how many lines a page goes.
const pageLines = 8

// most is farther than any list is long.
const most = 1 << 30

func newList(length func() int, create func() fyne.CanvasObject, update func(widget.ListItemID, fyne.CanvasObject)) *list {
	l := &list{}
	l.Length, l.CreateItem, l.UpdateItem = length, create, update
	l.HideSeparators = true
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey moves the cursor, or goes where it is.
func (l *list) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp:
		l.step(-1)
	case fyne.KeyDown:
		l.step(1)
	case fyne.KeyPageUp:
		l.step(-pageLines)
	case fyne.KeyPageDown:
		l.step(pageLines)
	case fyne.KeyHome:
		l.step(-most)
	case fyne.KeyEnd:
		l.step(most)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l.enter()
	case fyne.KeyLeft:
		l.fold(true)
	case fyne.KeyRight:
		l.fold(false)
	case fyne.KeyEscape:
		l.leave()
	default:
		look.KeyToWindow(l, ev)
	}
}

// leave gives the keys back to the sheet.
func (l *list) leave() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(l); c != nil {
		c.Unfocus()
	}
}

// takeFocus makes the keys go to the list.
func (l *list) takeFocus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(l); c != nil {
		c.Focus(l)
	}
}

// FocusGained shows that keys go to the list.
func (l *list) FocusGained() {
	l.focused = true
	l.Refresh()
}

// FocusLost shows that they no longer do.
func (l *list) FocusLost() {
	l.focused = false
	l.Refresh()
}
