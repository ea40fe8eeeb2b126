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

// form is the rows of one record.
type form struct {
	object  fyne.CanvasObject
	refresh func() bool // false where other rows have to be shown: build it anew
	first   fyne.Focusable
}

func newForm[R any](t target[R], rows []row[R]) *form {
	out := &form{}
	box := container.NewVBox()
	var refreshers []func()
	shown := visible(t, rows)
	for i, r := range rows {
		if !shown[i] {
			continue
		}
		object, refresh := line(out, t, r)
		box.Add(object)
		if refresh != nil {
			refreshers = append(refreshers, refresh)
		}
	}
	out.object = box
	out.refresh = func() bool {
		if !equal(shown, visible(t, rows)) {
			return false
		}
		for _, refresh := range refreshers {
			refresh()
		}
		return true
	}
	return out
}

func visible[R any](t target[R], rows []row[R]) []bool {
	record, ok := t.get()
	out := make([]bool, len(rows))
	for i, r := range rows {
		out[i] = ok && (r.show == nil || r.show(record))
	}
	return out
}

func equal(a, b []bool) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return len(a) == len(b)
}

// line lays a row out: label and control side by side, complaints beneath.
func line[R any](f *form, t target[R], r row[R]) (fyne.CanvasObject, func()) {
	if r.build == nil {
		return subheading(r.label), nil
	}
	complaint := widget.NewLabel("")
	complaint.Wrapping = fyne.TextWrapWord
	complaint.Importance = widget.DangerImportance
	complaint.Hide()
	c := r.build(t, func(message string) {
		complaint.SetText(message)
		if message == "" {
			complaint.Hide()
		} else {
			complaint.Show()
		}
	})
	if focusable, ok := c.object.(fyne.Focusable); ok && f.first == nil {
		f.first = focusable
	}
	label := canvas.NewText(r.label, color.Transparent)
	label.TextSize = theme.Size(theme.SizeNameText)
	label.Color = theme.Color(look.ColorFaint)
	return container.NewVBox(container.New(&labelled{}, label, c.object), complaint), c.refresh
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

const labelWidth = 118

// MinSize returns the room for the label and the control's least size.
func (*labelled) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := objects[1].MinSize()
	return fyne.NewSize(labelWidth+max(least.Width, 90), max(least.Height, objects[0].MinSize().Height))
}

// Layout places the label in the middle of the line's height.
func (*labelled) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	label := objects[0].MinSize()
	objects[0].Move(fyne.NewPos(0, (size.Height-label.Height)/2))
	objects[0].Resize(label)
	objects[1].Move(fyne.NewPos(labelWidth, 0))
	objects[1].Resize(fyne.NewSize(size.Width-labelWidth, size.Height))
}
