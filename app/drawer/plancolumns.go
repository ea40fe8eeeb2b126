package drawer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// tight lays lines of text out one below the other, without the margin that each has.
type tight struct{}

// inset is the margin of a line of text that is taken off above and below, px.
func inset() float32 { return theme.Size(theme.SizeNameInnerPadding) - 1 }

// MinSize is that of all lines.
func (tight) MinSize(objects []fyne.CanvasObject) fyne.Size {
	out := fyne.NewSize(0, 4)
	for _, o := range objects {
		out.Height += o.MinSize().Height - 2*inset()
	}
	return out
}

// Layout places them.
func (tight) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := 2 - inset()
	for _, o := range objects {
		high := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, high))
		y += high - 2*inset()
	}
}

// planColumns lays out a name and a column for each plan, all plans alike wide.
type planColumns struct{}

const (
	nameColumn = 170 // px, at least
	planColumn = 170 // px, at least
	nameShare  = 0.2 // of the width
)

// MinSize is that in which every column can be read.
func (planColumns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	out := fyne.NewSize(nameColumn+planColumn*float32(max(len(objects)-1, 0)), 0)
	for _, o := range objects {
		out.Height = max(out.Height, o.MinSize().Height)
	}
	return out
}

// Layout places the columns.
func (planColumns) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	if len(objects) == 0 {
		return
	}
	name := max(nameColumn, nameShare*size.Width)
	each := (size.Width - name) / float32(max(len(objects)-1, 1))
	for i, o := range objects {
		x, width := float32(0), name
		if i > 0 {
			x, width = name+float32(i-1)*each, each
		}
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(width, size.Height))
	}
}
