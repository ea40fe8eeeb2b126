package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram/unit"
)

// role is what a reply to a question is for.
type role int

const (
	plainReply  role = iota
	mainReply        // given by Enter
	stayReply        // given by Escape: nothing changes
	dangerReply      // something is lost
)

// reply is a button of a question.
type reply struct {
	label string
	role  role
	run   func() // after the question is gone; may be nil
}

// question is a dialog that keys answer too: Enter gives the main reply, and
// Escape the one that changes nothing; so does Enter where none is the main one.
type question struct {
	app          *App
	dialog       *dialog.CustomDialog
	overlay      fyne.CanvasObject // as the window shows it
	enter, leave *button
}

// closing is the one reply of a dialog that only shows something.
func closing() reply { return reply{"Close", stayReply, nil} }

// show shows the question. A size of zero is that of the content.
func (q *question) show(title string, content fyne.CanvasObject, size fyne.Size, replies ...reply) {
	q.dialog = dialog.NewCustomWithoutButtons(title, content, q.app.window)
	var buttons []fyne.CanvasObject
	for _, reply := range replies {
		buttons = append(buttons, q.buttonOf(reply))
	}
	if q.enter == nil {
		q.enter = q.leave
	}
	q.dialog.SetButtons(buttons)
	if !size.IsZero() {
		q.dialog.Resize(size.Max(q.dialog.MinSize()))
	}
	q.dialog.Show()
	canvas := q.app.window.Canvas()
	q.overlay = canvas.Overlays().Top()
	q.app.questions = append(q.app.questions, q)
	canvas.Focus(q.enter)
}

func (q *question) buttonOf(reply reply) *button {
	out := newButton(reply.label, q, func() {
		q.hide()
		if reply.run != nil {
			reply.run()
		}
	})
	switch reply.role {
	case mainReply:
		out.Importance, q.enter = widget.HighImportance, out
	case stayReply:
		q.leave = out
	case dangerReply:
		out.Importance = widget.DangerImportance
	}
	return out
}

func (q *question) hide() {
	q.app.questions = slices.DeleteFunc(q.app.questions, func(other *question) bool { return other == q })
	q.dialog.Hide()
}

// key gives the reply of the key and reports whether there is one.
func (q *question) key(ev *fyne.KeyEvent) bool {
	switch ev.Name {
	case fyne.KeyEscape:
		q.leave.OnTapped()
	case fyne.KeyReturn, fyne.KeyEnter:
		q.enter.OnTapped()
	default:
		return false
	}
	return true
}

// asking returns the question that waits for its answer, or nil.
func (a *App) asking() *question {
	top := a.window.Canvas().Overlays().Top()
	for _, q := range a.questions {
		if q.overlay == top && top != nil {
			return q
		}
	}
	return nil
}

// showMessage shows a text until it is closed.
func (a *App) showMessage(title, text string) {
	q := &question{app: a}
	q.show(title, paragraph(text), fyne.Size{}, closing())
}

// paragraph returns a text as a dialog shows it.
func paragraph(text string) fyne.CanvasObject {
	return container.NewPadded(widget.NewLabel(wrap(unit.VisibleLines(text), 70)))
}

// button is a button in a question. Enter presses it, and the arrows lead to
// the next one.
type button struct {
	look.Button
	question *question
}

func newButton(text string, q *question, tapped func()) *button {
	b := &button{question: q}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey presses the button, or goes to another, or answers the question.
func (b *button) TypedKey(ev *fyne.KeyEvent) {
	canvas := b.question.app.window.Canvas()
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		b.OnTapped()
	case fyne.KeyRight, fyne.KeyDown:
		canvas.FocusNext()
	case fyne.KeyLeft, fyne.KeyUp:
		canvas.FocusPrevious()
	default:
		if !b.question.key(ev) {
			b.Button.Button.TypedKey(ev) // no other key goes to the window
		}
	}
}

// line is a line of text in a question.
type line struct {
	widget.Entry
	question *question
}

func newLine(text string, q *question) *line {
	l := &line{question: q}
	l.Text = text
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey answers the question or edits the line.
func (l *line) TypedKey(ev *fyne.KeyEvent) {
	if !l.question.key(ev) {
		l.Entry.TypedKey(ev)
	}
}

// picker is a choice in a question.
type picker struct {
	look.Select
	question *question
}

func newPicker(options []string, q *question) *picker {
	p := &picker{question: q}
	p.Options, p.PlaceHolder = options, "other"
	p.ExtendBaseWidget(p)
	return p
}

// TypedKey answers the question or picks.
func (p *picker) TypedKey(ev *fyne.KeyEvent) {
	if !p.question.key(ev) {
		p.Select.Select.TypedKey(ev)
	}
}
