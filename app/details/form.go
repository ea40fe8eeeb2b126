package details

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// form is the rows of one record. Rows that the record does not have now are
// hidden, so that the others keep the focus.
type form struct {
	object   *fyne.Container
	fields   []fyne.Focusable // in order, also those that are hidden
	commits  []func()
	refreshs []func()
}

func newForm[R any](t target[R], rows []row[R]) *form {
	f := &form{object: container.NewVBox()}
	for _, r := range rows {
		f.object.Add(line(f, t, r))
	}
	f.refresh()
	return f
}

// refresh shows the values of the document.
func (f *form) refresh() {
	for _, refresh := range f.refreshs {
		refresh()
	}
}

// commit takes what is typed and not yet handed over.
func (f *form) commit() {
	for _, commit := range f.commits {
		commit()
	}
}

// line lays a row out: label and control side by side, complaints beneath.
func line[R any](f *form, t target[R], r row[R]) fyne.CanvasObject {
	if r.build == nil {
		return subheading(r.label)
	}
	complaint := newComplaint()
	c := r.build(t, complaint.tell)
	out := container.NewVBox(beside(r.label, c.object, r.wide), complaint.label)
	f.fields = append(f.fields, c.fields...)
	if c.commit != nil {
		f.commits = append(f.commits, c.commit)
	}
	f.refreshs = append(f.refreshs, func() {
		record, ok := t.get()
		if !ok || r.show != nil && !r.show(record) {
			out.Hide()
			return
		}
		out.Show()
		if c.refresh != nil {
			c.refresh()
		}
	})
	return out
}

// beside puts the control beside its label, or alone where it is wide.
func beside(words string, control fyne.CanvasObject, wide bool) fyne.CanvasObject {
	if wide {
		return flush(control)
	}
	label := canvas.NewText(words, theme.Color(look.ColorFaint))
	label.TextSize = theme.Size(theme.SizeNameText)
	return container.New(&labelled{}, label, control)
}

// complaint is the line beneath a field that says why an entry was not taken.
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

func subheading(label string) fyne.CanvasObject {
	text := canvas.NewText(label, theme.Color(look.ColorHeading))
	text.TextStyle.Bold = true
	text.TextSize = theme.Size(theme.SizeNameText)
	rule := canvas.NewLine(theme.Color(look.ColorHair))
	gap := canvas.NewRectangle(color.Transparent)
	gap.SetMinSize(fyne.NewSize(1, 8))
	return container.NewVBox(gap, text, rule)
}

// labelled puts a label of fixed width left of a control.
type labelled struct{}

const (
	labelWidth   = 132
	controlWidth = 90 // at least, where the control can be shortened
)

// MinSize returns the room for the label and the control's least size. A list
// asks for the room of its longest line, which would make the panel wider and
// narrower with the selection; it is shortened instead.
func (*labelled) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := objects[1].MinSize()
	width := least.Width
	if _, ok := objects[1].(*look.Select); ok {
		width = controlWidth
	}
	return fyne.NewSize(labelWidth+max(width, controlWidth), max(least.Height, objects[0].MinSize().Height))
}

// Layout places the label in the middle of the line's height.
func (*labelled) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	label := objects[0].MinSize()
	objects[0].Move(fyne.NewPos(0, (size.Height-label.Height)/2))
	objects[0].Resize(label)
	objects[1].Move(fyne.NewPos(labelWidth, 0))
	objects[1].Resize(fyne.NewSize(size.Width-labelWidth, size.Height))
}
