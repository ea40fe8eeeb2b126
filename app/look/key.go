package look

import (
	"regexp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// FunctionKey gives a function key, such as that of Help, to the window and
// reports whether it was one. The toolkit shows keys to nobody but what has the
// focus, so each field that takes it has to hand them on.
func FunctionKey(field fyne.CanvasObject, ev *fyne.KeyEvent) bool {
	if !functionKey.MatchString(string(ev.Name)) {
		return false
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(field); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(ev)
	}
	return true
}

var (
	functionKey = regexp.MustCompile(`^F[1-9][0-9]?$`)
	plainKey    = regexp.MustCompile(`^[A-Z0-9\[\]]$`)
)

// KeyToWindow gives the window a key that means nothing to a field in which
// nothing is typed: a function key, a letter or digit that is a command's, which
// takes the focus along, and Escape, which gives it up.
func KeyToWindow(field fyne.CanvasObject, ev *fyne.KeyEvent) {
	c := fyne.CurrentApp().Driver().CanvasForObject(field)
	if c == nil || FunctionKey(field, ev) {
		return
	}
	plain := plainKey.MatchString(string(ev.Name))
	if plain || ev.Name == fyne.KeyEscape {
		c.Unfocus()
	}
	if plain && c.OnTypedKey() != nil {
		c.OnTypedKey()(ev)
	}
}

// Select is a list to pick from that Enter opens, and that hands on the keys
// that it has no use for. Use NewSelect.
type Select struct {
	widget.Select
	Rest Rest // of the pointer
	ring ring
}

// NewSelect returns a list; changed is called where another line is picked, and
// may be nil.
func NewSelect(options []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged, s.PlaceHolder = options, changed, "other"
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained shows by a line that the list has the focus.
func (s *Select) FocusGained() {
	s.ring.get().Show()
	s.Select.FocusGained()
}

// FocusLost takes the line away.
func (s *Select) FocusLost() {
	s.ring.get().Hide()
	s.Select.FocusLost()
}

// MouseIn waits whether the pointer rests.
func (s *Select) MouseIn(ev *desktop.MouseEvent) {
	s.Rest.Begin()
	s.Select.MouseIn(ev)
}

// MouseOut ends the rest of the pointer.
func (s *Select) MouseOut() {
	s.Rest.End()
	s.Select.MouseOut()
}

// Tapped opens the list, which is read without an explanation.
func (s *Select) Tapped(ev *fyne.PointEvent) {
	s.Rest.End()
	s.Select.Tapped(ev)
}

// CreateRenderer returns the renderer: that of the toolkit's list, and the line
// above it.
func (s *Select) CreateRenderer() fyne.WidgetRenderer {
	return s.ring.over(s.Select.CreateRenderer(), plainInk)
}

// TypedKey opens the list, or picks the line beside.
func (s *Select) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		s.Select.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case fyne.KeySpace, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight:
		s.Select.TypedKey(ev)
	default:
		KeyToWindow(s, ev)
	}
}

// Check is a box to tick that Enter ticks too, and that hands on the keys that
// it has no use for. Use NewCheck.
type Check struct {
	widget.Check
	Rest Rest // of the pointer
}

// NewCheck returns a box; changed is called where it is ticked or cleared, and
// may be nil.
func NewCheck(label string, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = label, changed
	c.ExtendBaseWidget(c)
	return c
}

// MouseIn waits whether the pointer rests.
func (c *Check) MouseIn(ev *desktop.MouseEvent) {
	c.Rest.Begin()
	c.Check.MouseIn(ev)
}

// MouseOut ends the rest of the pointer.
func (c *Check) MouseOut() {
	c.Rest.End()
	c.Check.MouseOut()
}

// TypedKey ticks or clears the box.
func (c *Check) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		c.TypedRune(' ')
	default:
		KeyToWindow(c, ev)
	}
}
