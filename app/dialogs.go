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

// renamePlan asks for another name of the plan that is shown.
func (a *App) renamePlan() {
	q := &question{app: a}
	name := newLine(a.editor.Document().NameOf(a.editor.Plan()), q)
	q.show("Rename the plan", widget.NewForm(widget.NewFormItem("Name", name)), fyne.NewSize(360, 0),
		reply{"Cancel", stayReply, nil},
		reply{"Rename", mainReply, func() { a.namePlan(strings.TrimSpace(name.Text)) }})
	a.window.Canvas().Focus(name)
	name.TypedShortcut(&fyne.ShortcutSelectAll{})
}

func (a *App) namePlan(name string) {
	if name == "" {
		return
	}
	if err := a.editor.RenamePlan(a.editor.Plan(), name); err != nil {
		a.showError("Not renamed", err)
	}
	a.refresh()
}

// planMenu drops down below the plus sign: the commands about plans.
func (a *App) planMenu(below fyne.CanvasObject) {
	var items []*fyne.MenuItem
	for _, name := range []string{"new plan", "duplicate plan", "rename plan", "remove plan"} {
		for _, command := range a.commands {
			if command.Name == name {
				item := fyne.NewMenuItem(command.Label, func() { a.runCommand(command) })
				item.Disabled = command.MayRun != nil && !command.MayRun(a.editor)
				items = append(items, item)
			}
		}
	}
	widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), a.window.Canvas(), fyne.NewPos(0, below.Size().Height), below)
}
