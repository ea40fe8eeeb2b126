package drawer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"clampline/app/look"
)

// page shows a text that scrolls and what can be done with it. The buttons
// stand below the text; where that would leave too little of it in view they
// scroll with it. Use newPage.
type page struct {
	object  *fyne.Container // the scroll, and the foot where that stands below
	scroll  *container.Scroll
	slot    *fyne.Container // of the foot where that scrolls with the text
	foot    *fyne.Container // the buttons, and beneath them the note
	buttons []*look.Button
	note    *look.Faint  // nothing while it is empty
	beside  *look.Button // that stands beside the note, or nil
	width   float32
	scrolls bool // the foot, with the text
}

const (
	pageHeight = 44  // at least, px: the drawer can be made low on a small screen
	textHeight = 80  // of the text in view where the buttons stand below it, px
	noteWidth  = 240 // at least, of a note that has a button beside it, px
)

// newPage returns a page of the text, with the buttons at its end and the rest
// after them. A button may be set to stand beside the note.
func newPage(text, rest fyne.CanvasObject, buttons ...*look.Button) *page {
	p := &page{slot: container.NewStack(), buttons: buttons, note: look.NewFaintParagraph("")}
	p.note.Hide()
	p.foot = container.New(footLayout{p})
	for _, b := range buttons {
		p.foot.Add(b)
		b.Focused = func() { p.reveal(b) }
	}
	p.foot.Add(p.note)
	p.scroll = container.NewVScroll(container.NewVBox(text, p.slot, rest))
	p.object = container.New(pageLayout{p}, p.scroll, p.foot)
	return p
}

// top shows the beginning.
func (p *page) top() { p.scroll.ScrollToTop() }

// tell writes the note.
func (p *page) tell(text string) {
	p.note.SetText(text)
	setVisible(p.note, text != "")
}

// noteBeside sets the button that stands beside the note.
func (p *page) noteBeside(b *look.Button) {
	p.beside = b
	p.foot.Add(b)
	b.Focused = func() { p.reveal(b) }
}

// arrange lays it out anew, after buttons have come or gone.
func (p *page) arrange() { p.object.Refresh() }

// reveal brings a button into view that got the focus.
func (p *page) reveal(b *look.Button) {
	if !p.scrolls {
		return
	}
	top := p.slot.Position().Y + b.Position().Y
	bottom := top + b.Size().Height
	if from := p.scroll.Offset.Y; top < from {
		p.scroll.ScrollToOffset(fyne.NewPos(0, top))
	} else if high := p.scroll.Size().Height; bottom > from+high {
		p.scroll.ScrollToOffset(fyne.NewPos(0, bottom-high))
	}
}

// move puts the foot where it belongs.
func (p *page) move(scrolls bool) {
	if scrolls == p.scrolls {
		return
	}
	p.scrolls = scrolls
	if scrolls {
		p.object.Objects, p.slot.Objects = []fyne.CanvasObject{p.scroll}, []fyne.CanvasObject{p.foot}
	} else {
		p.object.Objects, p.slot.Objects = []fyne.CanvasObject{p.scroll, p.foot}, nil
		p.top() // it may have been scrolled to a button
	}
}

// lines returns the lines of buttons in a width.
func (p *page) lines(width float32) []flowLine {
	var all []fyne.CanvasObject
	for _, b := range p.buttons {
		all = append(all, b)
	}
	return linesOf(all, width-flowMargin)
}

// footHeight is how high the foot is in a width.
func (p *page) footHeight(width float32) float32 {
	out := float32(0)
	for _, l := range p.lines(width) {
		out += l.height + flowGap
	}
	note, beside := p.noteIn(width)
	return out + note.Height + beside
}

// noteIn returns the size of the note in a width, and what its button adds to
// the height where it has no room beside the note.
func (p *page) noteIn(width float32) (note fyne.Size, below float32) {
	if !p.note.Visible() {
		return fyne.Size{}, 0
	}
	if p.beside != nil {
		button := p.beside.MinSize()
		if rest := width - button.Width - flowGap; rest >= noteWidth {
			note = p.noteOf(rest)
			return note.Max(fyne.NewSize(0, button.Height+flowGap)), 0
		}
		below = button.Height + flowGap
	}
	return p.noteOf(width), below
}

// noteOf gives the note a width, from which its height follows.
func (p *page) noteOf(width float32) fyne.Size {
	p.note.Resize(fyne.NewSize(width, p.note.Size().Height))
	return fyne.NewSize(width, p.note.MinSize().Height)
}

// pageLayout gives the text what the foot leaves.
type pageLayout struct{ *page }

// MinSize is that in which some of the text is in view.
func (l pageLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	out := fyne.NewSize(l.scroll.MinSize().Width, pageHeight)
	for _, b := range l.buttons {
		if b.Visible() {
			out.Width = max(out.Width, b.MinSize().Width+flowMargin)
		}
	}
	return out
}

// Layout places the text and, where there is room for both, the foot below it.
func (l pageLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	high := l.footHeight(size.Width)
	l.move(high > 0 && size.Height-high < textHeight)
	if l.scrolls {
		l.scroll.Resize(size)
		l.scroll.Content.Refresh()
		return
	}
	l.scroll.Resize(fyne.NewSize(size.Width, max(size.Height-high, 0)))
	l.scroll.Refresh()
	l.foot.Move(fyne.NewPos(0, size.Height-high))
	l.foot.Resize(fyne.NewSize(size.Width, high))
}

// footLayout puts the buttons into lines and the note below them.
type footLayout struct{ *page }

// MinSize is the height that the foot has in the width of the page.
func (l footLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(0, l.footHeight(l.width))
}

// Layout breaks the lines.
func (l footLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, line := range l.lines(size.Width) {
		line.place(y + flowGap/2)
		y += line.height + flowGap
	}
	note, below := l.noteIn(size.Width)
	l.note.Move(fyne.NewPos(0, y))
	l.note.Resize(note)
	if l.beside == nil {
		return
	}
	l.beside.Resize(l.beside.MinSize())
	if below > 0 {
		l.beside.Move(fyne.NewPos(flowMargin, y+note.Height+flowGap/2))
	} else {
		l.beside.Move(fyne.NewPos(note.Width+flowGap/2, y+flowGap/2))
	}
}
