package app

import "fyne.io/fyne/v2"

// layoutPairs lays labels out in two columns, the first as wide as it needs.
type layoutPairs struct{}

func (layoutPairs) sizes(objects []fyne.CanvasObject) (first, second, height float32) {
	for i, o := range objects {
		least := o.MinSize()
		height = max(height, least.Height)
		if i%2 == 0 {
			first = max(first, least.Width)
		} else {
			second = max(second, least.Width)
		}
	}
	return first, second, height
}

// MinSize returns the room for all rows.
func (l layoutPairs) MinSize(objects []fyne.CanvasObject) fyne.Size {
	first, second, height := l.sizes(objects)
	return fyne.NewSize(first+second, height*float32((len(objects)+1)/2))
}

// Layout places the rows one below the other.
func (l layoutPairs) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	first, _, height := l.sizes(objects)
	for i, o := range objects {
		x, width := float32(0), first
		if i%2 == 1 {
			x, width = first, size.Width-first
		}
		o.Move(fyne.NewPos(x, float32(i/2)*height))
		o.Resize(fyne.NewSize(width, height))
	}
}
