package details

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// line is a row laid out: label and control side by side. A click beside the
// control goes to it. What is unusual about its value stands in small letters below
// the label, in the same room, so that no other line moves. A label that is too long
// goes on there; where both want the room the note has it, since the heading says
// what the rest of such a label does.
type line struct {
	widget.BaseWidget
	words   string
	more    string // of a label that has no room on one line
	label   *canvas.Text
	note    *canvas.Text
	control control
	rest    look.Rest // of the pointer, on the label or a field to type in
}

var (
	_ fyne.Tappable     = (*line)(nil)
	_ desktop.Hoverable = (*line)(nil)
)

const (
	labelWidth   = 132
	labelGap     = 4  // between a label and its control, at least
	controlWidth = 90 // at least, where the control can be shortened
	lineGap      = 3  // between two controls below each other
)

func newLine(words string) *line {
	first, more := broken(words)
	l := &line{words: words, more: more, label: canvas.NewText(first, nil), note: canvas.NewText("", nil)}
	l.ExtendBaseWidget(l)
	return l
}

// broken returns a label as one line, or as two where it has no room on one.
func broken(words string) (first, more string) {
	if fyne.MeasureText(words, theme.Size(theme.SizeNameText), fyne.TextStyle{}).Width <= labelWidth-labelGap {
		return words, ""
	}
	first, more, _ = strings.Cut(words, " ")
	return first, more
}

// put gives the line its control.
func (l *line) put(c control) {
	l.control = c
	l.mark("")
}

// mark says what is unusual about the value, or nothing.
func (l *line) mark(note string) {
	size := theme.Size(theme.SizeNameText)
	if note != "" {
		note = "unusual: " + note
	} else {
		note = l.more
	}
	if note != "" {
		size = theme.Size(look.SizeSmall)
	}
	if l.note.Text == note && l.label.TextSize == size {
		return
	}
	l.label.TextSize, l.note.Text = size, note
	l.Refresh()
}

// Tapped puts the focus into the first field of the line.
func (l *line) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(l); c != nil && len(l.control.fields) > 0 {
		c.Focus(l.control.fields[0])
	}
}

// explain says what to do where the pointer rests on the line or on a control in it.
func (l *line) explain(f func(on bool)) {
	l.rest.Explain = f
	for _, field := range l.control.fields {
		switch control := field.(type) {
		case *look.Select:
			control.Rest.Explain = f
		case *look.Check:
			control.Rest.Explain = f
		}
	}
}

// MouseIn waits whether the pointer rests.
func (l *line) MouseIn(*desktop.MouseEvent) { l.rest.Begin() }

// MouseMoved does nothing: a hand is never quite still.
func (l *line) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes the explanation away.
func (l *line) MouseOut() { l.rest.End() }

// CreateRenderer returns the renderer.
func (l *line) CreateRenderer() fyne.WidgetRenderer {
	out := &lineRenderer{l}
	out.paint()
	return out
}

type lineRenderer struct{ *line }

func (r *lineRenderer) Destroy() {}

func (r *lineRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.label, r.note, r.control.object}
}

func (r *lineRenderer) paint() {
	r.label.Color, r.note.Color = theme.Color(look.ColorFaint), theme.Color(theme.ColorNameWarning)
	if r.note.Text == r.more {
		r.note.Color = r.label.Color
	}
	r.note.TextSize = theme.Size(look.SizeSmall)
}

// Refresh paints the texts anew.
func (r *lineRenderer) Refresh() {
	r.paint()
	r.Layout(r.Size())
	canvas.Refresh(r.line)
}

// MinSize returns the room for the label and the control's least size. A list
// asks for the room of its longest line, which would make the panel wider and
// narrower with the selection; it is shortened instead.
func (r *lineRenderer) MinSize() fyne.Size {
	least := r.control.object.MinSize()
	width := least.Width
	switch r.control.object.(type) {
	case *look.Select:
		width = controlWidth
	case *look.Check:
		if r.words == "" {
			width -= labelWidth // it may begin further left
		}
	}
	return fyne.NewSize(labelWidth+max(width, controlWidth), max(least.Height, r.label.MinSize().Height)+lineGap)
}

// Layout places the label in the middle of the line's height, or label and note
// below each other.
func (r *lineRenderer) Layout(size fyne.Size) {
	high := size.Height - lineGap
	label, note := r.label.MinSize(), fyne.NewSize(0, 0)
	if r.note.Text != "" {
		note = r.note.MinSize()
	}
	top := (size.Height - label.Height - note.Height) / 2
	r.label.Move(fyne.NewPos(0, top))
	r.label.Resize(label)
	r.note.Move(fyne.NewPos(0, top+label.Height))
	r.note.Resize(note)
	left, wide := float32(labelWidth), size.Width-labelWidth
	if check, ok := r.control.object.(*look.Check); ok {
		wide = check.MinSize().Width // a click on the rest of a wider one would go nowhere
		if r.words == "" {
			left = max(0, min(left, size.Width-wide))
		}
	}
	r.control.object.Move(fyne.NewPos(left, lineGap/2))
	r.control.object.Resize(fyne.NewSize(wide, high))
}
