package details

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// bubble says why an entry was not taken, or what a field is, just above it. It
// lies over the line before and takes no room, so that the form does not move;
// clicks go through it. There is one of each to a form: the message stays until the
// next entry.
type bubble struct {
	object *fyne.Container
	ground *canvas.Rectangle
	label  *widget.Label
	at     fyne.CanvasObject // the line that it is about
	edge   fyne.ThemeColorName
}

// newBubble returns one whose letters and edge are of the sort of message.
func newBubble(letters widget.Importance, edge fyne.ThemeColorName) *bubble {
	b := &bubble{ground: canvas.NewRectangle(nil), label: widget.NewLabel(""), edge: edge}
	b.ground.StrokeWidth, b.ground.CornerRadius = 1, 4
	b.label.Wrapping = fyne.TextWrapWord
	b.label.Importance = letters
	b.object = container.New(above{b}, b.ground, b.label)
	b.object.Hide()
	return b
}

// tell shows the message about a line, or takes away the one before where it is
// empty.
func (b *bubble) tell(message string, at fyne.CanvasObject) {
	if message == b.label.Text && (message == "" || at == b.at) {
		return
	}
	b.at = nil // a line that is none, of a form that has gone, is about nothing
	if message != "" {
		b.at = at
	}
	b.ground.FillColor, b.ground.StrokeColor = theme.Color(theme.ColorNameOverlayBackground), theme.Color(b.edge)
	b.label.SetText(message)
	if message == "" {
		b.object.Hide()
		return
	}
	b.object.Show()
	b.object.Refresh()
	canvas.Refresh(at) // one that was never shown is on no canvas yet, and so has nothing painted
}

// above lays a bubble out above its line, also beyond the form where that is the
// first one: the next line is the one that gets the focus.
type above struct{ *bubble }

func (above) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

func (a above) Layout(_ []fyne.CanvasObject, room fyne.Size) {
	if a.at == nil {
		return
	}
	a.label.Resize(fyne.NewSize(room.Width, 1)) // so that it knows where to break
	size := fyne.NewSize(room.Width, a.label.MinSize().Height)
	top := a.at.Position().Y - size.Height
	for _, o := range []fyne.CanvasObject{a.ground, a.label} {
		o.Move(fyne.NewPos(0, top))
		o.Resize(size)
	}
}

// floating gives what it holds all the room that there is, and asks for none.
type floating struct{}

func (floating) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

func (floating) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}

// complaint is a line that says why something was not done, where no field asked
// for it.
type complaint struct{ label *widget.Label }

func newComplaint() complaint {
	label := widget.NewLabel("")
	label.Wrapping = fyne.TextWrapWord
	label.Importance = widget.DangerImportance
	label.Hide()
	return complaint{label}
}

// tell shows the message, or takes away the one before where it is empty.
func (c complaint) tell(message string) {
	if message == c.label.Text {
		return
	}
	c.label.SetText(message)
	if message == "" {
		c.label.Hide()
	} else {
		c.label.Show()
	}
}
