package app

import "fyne.io/fyne/v2"

// statusLayout lays out the status line: what is going on at the left, with
// what room there is, and the rest at the right. Where the window is narrow it
// leaves things out, first what the engine does, then the verdicts, then
// whether the sheet is saved; the number of findings and the caution stay.
// What was just done has more room than what goes on all the time, as far as it
// needs it. While the engine works what it does goes last.
type statusLayout struct {
	notice *float32 // width of what was just done, px
	busy   *bool    // the engine works
}

// Places of the objects in the line.
const (
	atDoing = iota
	atFindings
	atVerdicts
	atEngine
	atSaved
	atCaution
)

const (
	statusGap    = 3
	doingLeast   = 160 // px that what is going on has at least
	doingWanted  = 180 // px that it has before anything is left out
	noticeWanted = 620 // px, at most, of what was just done
)

// leaveOut is what is left out, in this order.
func (l statusLayout) leaveOut() []int {
	if *l.busy {
		return []int{atVerdicts, atSaved, atEngine}
	}
	return []int{atEngine, atVerdicts, atSaved}
}

// MinSize is that of the line with all left out that can be.
func (statusLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	out := fyne.NewSize(doingLeast, 0)
	for i, o := range objects {
		size := o.MinSize()
		out.Height = max(out.Height, size.Height)
		if i == atFindings || i == atCaution {
			out.Width += size.Width + statusGap
		}
	}
	return out
}

// Layout leaves out what has no room and places the rest.
func (l statusLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	left, wanted := size.Width, min(max(doingWanted, *l.notice), noticeWanted)
	for _, o := range objects[atFindings:] {
		left -= o.MinSize().Width + statusGap
	}
	out := map[int]bool{}
	for _, i := range l.leaveOut() {
		if left >= wanted {
			break
		}
		out[i] = true
		left += objects[i].MinSize().Width + statusGap
	}
	objects[atDoing].Resize(fyne.NewSize(max(left, 0), size.Height))
	objects[atDoing].Move(fyne.NewPos(0, 0))
	x := max(left, 0)
	for i, o := range objects[atFindings:] {
		if out[atFindings+i] {
			o.Hide()
			continue
		}
		width := o.MinSize().Width
		o.Show()
		o.Move(fyne.NewPos(x+statusGap, 0))
		o.Resize(fyne.NewSize(width, size.Height))
		x += width + statusGap
	}
}
