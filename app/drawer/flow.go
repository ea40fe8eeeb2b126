package drawer

import "fyne.io/fyne/v2"

// flow lays out all objects but the first in lines, as words in a text, and
// gives the first one the room that is left below the lines. So a drawer that
// is narrow breaks the lines and does not widen the window.
type flow struct{}

const (
	flowGap    = 4 // between objects, px
	flowMargin = 6 // at the left of a line, px
)

// MinSize is that of one line and of the first object.
func (flow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	out, line := objects[0].MinSize(), float32(0)
	for _, o := range objects[1:] {
		if o.Visible() {
			size := o.MinSize()
			out.Width, line = max(out.Width, size.Width+flowMargin), max(line, size.Height+flowGap)
		}
	}
	out.Height += line
	return out
}

// Layout breaks the lines.
func (flow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	lines := linesOf(objects[1:], size.Width-flowMargin)
	y := float32(0)
	for _, l := range lines {
		l.place(y + flowGap/2)
		y += l.height + flowGap
	}
	objects[0].Move(fyne.NewPos(0, y))
	objects[0].Resize(fyne.NewSize(size.Width, max(size.Height-y, 0)))
}

// flowLine is one line of objects.
type flowLine struct {
	objects []fyne.CanvasObject
	width   float32 // with a gap behind each object
	height  float32
}

func (l *flowLine) place(y float32) {
	x := float32(flowMargin)
	for _, o := range l.objects {
		width := o.MinSize().Width
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(width, l.height))
		x += width + flowGap
	}
}

// linesOf puts the objects that show into lines of at most the width, unless
// one alone is wider.
func linesOf(objects []fyne.CanvasObject, width float32) []flowLine {
	var out []flowLine
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		size := o.MinSize()
		last := len(out) - 1
		if last < 0 || out[last].width+size.Width > width {
			out = append(out, flowLine{})
			last++
		}
		out[last].objects = append(out[last].objects, o)
		out[last].width += size.Width + flowGap
		out[last].height = max(out[last].height, size.Height)
	}
	return out
}
