package app

import (
	"os"
	"strings"

	"clampline/diagram/unit"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// unlessUnsaved runs next at once where nothing would be lost, and else after
// the person has saved or has said that it may be lost.
func (a *App) unlessUnsaved(next func()) {
	a.details.Commit()
	if a.editor.IsSaved() {
		next()
		return
	}
	q := &question{app: a}
	q.show("Save the changes?", paragraph("The sheet has changes that are not saved."), fyne.Size{},
		reply{"Keep working", stayReply, nil},
		reply{"Don't save", dangerReply, next},
		reply{"Save", mainReply, func() { a.save(next) }})
}

// unlessThere runs next at once where no file is at the path or where the
// person has been asked about it, and else after they have said that it may be
// written over.
func (a *App) unlessThere(path string, asked bool, next func()) {
	if _, err := os.Stat(path); asked || err != nil {
		next()
		return
	}
	q := &question{app: a}
	q.show("Overwrite?", paragraph("There is a file "+path+" already. Write over it?"), fyne.Size{},
		reply{"No", stayReply, nil},
		reply{"Yes", dangerReply, next})
}

// showError says what did not happen, and why.
func (a *App) showError(title string, err error) {
	a.showMessage(title, unit.SentenceCase(err.Error()))
}

// wrap breaks lines so that a long message fits a dialog.
func wrap(text string, width int) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = unit.Wrapped(line, width)
	}
	return strings.TrimRight(strings.Join(lines, "\n"), "\n")
}

// choose asks for one of several things.
func (a *App) choose(title, about string, names []string, picked func(int)) {
	q := &question{app: a}
	box := container.NewVBox(widget.NewLabel(about))
	var first *button
	for i, name := range names {
		button := newButton(name, q, func() { q.hide(); picked(i) })
		button.Alignment = widget.ButtonAlignLeading
		box.Add(button)
		if first == nil {
			first = button
		}
	}
	q.show(title, box, fyne.Size{}, reply{"Cancel", stayReply, nil})
	if first != nil {
		a.window.Canvas().Focus(first)
	}
}
