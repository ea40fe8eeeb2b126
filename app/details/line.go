package details

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// line is a row laid out: label and control side by side, or the control alone
// where it is wide. A click beside the control goes to it. What is unusual about
// its value stands in small letters below the label, in the same room, so that
// no other line moves. A label that is too long goes on there; where both want the
// room the note has it, since the heading says what the rest of such a label does.
type line struct {
	widget.BaseWidget
	words   string
	rest    string // of a label that has no room on one line
	wide    bool
	label   *canvas.Text
	note    *canvas.Text
	control control
	hover   func(on bool) // the pointer rests on the label, or is gone; nil where that says nothing
	stop    func() bool   // ends the wait for that; nil where there is none
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

func newLine(words string, wide bool) *line {
	first, rest := broken(words)
	l := &line{words: words, rest: rest, wide: wide, label: canvas.NewText(first, nil), note: canvas.NewText("", nil)}
	l.ExtendBaseWidget(l)
	return l
}

// broken returns a label as one line, or as two where it has no room on one.
func broken(words string) (first, rest string) {
	if fyne.MeasureText(words, theme.Size(theme.SizeNameText), fyne.TextStyle{}).Width <= labelWidth-labelGap {
		return words, ""
	}
	first, rest, _ = strings.Cut(words, " ")
	return first, rest
}

// put gives the line its control.
func (l *line) put(c control) {
	l.control = c
	if l.wide {
		l.control.object = flush(c.object)
	}
	l.mark("")
}

// mark says what is unusual about the value, or nothing.
func (l *line) mark(note string) {
	size := theme.Size(theme.SizeNameText)
	if note != "" {
		note = "unusual: " + note
	} else {
		note = l.rest
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

// restTime is how long the pointer rests on a label before it is explained.
const restTime = 600 * time.Millisecond

// afterRest calls f on the thread of the window once the pointer has rested. A test
// has a clock of its own.
var afterRest = func(f func()) (stop func() bool) {
	return time.AfterFunc(restTime, func() { fyne.Do(f) }).Stop
}

// MouseIn waits whether the pointer rests.
func (l *line) MouseIn(*desktop.MouseEvent) {
	if l.hover != nil {
		l.stop = afterRest(func() { l.hover(l.stop != nil) })
	}
}

// MouseMoved does nothing: a hand is never quite still.
func (l *line) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes the explanation away.
func (l *line) MouseOut() {
	if l.stop != nil {
		l.stop()
		l.stop = nil
		l.hover(false)
	}
}

// CreateRenderer returns the renderer.
func (l *line) CreateRenderer() fyne.WidgetRenderer {
	out := &lineRenderer{l}
	out.paint()
	return out
}

type lineRenderer struct{ *line }

func (r *lineRenderer) Destroy() {}

func (r *lineRenderer) Objects() []fyne.CanvasObject {
	if r.wide {
		return []fyne.CanvasObject{r.control.object}
	}
	return []fyne.CanvasObject{r.label, r.note, r.control.object}
}

func (r *lineRenderer) paint() {
	r.label.Color, r.note.Color = theme.Color(look.ColorFaint), theme.Color(theme.ColorNameWarning)
	if r.note.Text == r.rest {
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
	if r.wide {
		return least.AddWidthHeight(0, lineGap)
	}
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
	if r.wide {
		r.control.object.Move(fyne.NewPos(0, lineGap/2))
		r.control.object.Resize(fyne.NewSize(size.Width, high))
		return
	}
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
