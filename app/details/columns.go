package details

import "fyne.io/fyne/v2"

// columns lays cells out in so many columns, each as wide as its widest cell, and
// shares out the width that is left. Alike columns would be as wide as the widest
// of all, and run off the panel.
type columns int

func (c columns) measure(cells []fyne.CanvasObject) (widths, heights []float32) {
	widths = make([]float32, int(c))
	for i, cell := range cells {
		if i%int(c) == 0 {
			heights = append(heights, 0)
		}
		least, row := cell.MinSize(), len(heights)-1
		widths[i%int(c)] = max(widths[i%int(c)], least.Width)
		heights[row] = max(heights[row], least.Height)
	}
	return widths, heights
}

// MinSize returns the sum of the columns and of the rows.
func (c columns) MinSize(cells []fyne.CanvasObject) fyne.Size {
	widths, heights := c.measure(cells)
	return fyne.NewSize(sum(widths), sum(heights))
}

// Layout places the cells.
func (c columns) Layout(cells []fyne.CanvasObject, size fyne.Size) {
	widths, heights := c.measure(cells)
	more := max(0, size.Width-sum(widths)) / float32(len(widths))
	var at fyne.Position
	for i, cell := range cells {
		column, row := i%int(c), i/int(c)
		if column == 0 {
			at.X = 0
		}
		cell.Move(at)
		cell.Resize(fyne.NewSize(widths[column]+more, heights[row]))
		at.X += widths[column] + more
		if column == int(c)-1 {
			at.Y += heights[row]
		}
	}
}

func sum(lengths []float32) float32 {
	var out float32
	for _, l := range lengths {
		out += l
	}
	return out
}
