package app

import (
	"errors"
	"os"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
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
	text := widget.NewLabel("The sheet has changes that are not saved.")
	var d *dialog.CustomDialog
	answer := func(label string, importance widget.Importance, f func()) *widget.Button {
		out := widget.NewButton(label, func() { d.Hide(); f() })
		out.Importance = importance
		return out
	}
	d = dialog.NewCustomWithoutButtons("Save the changes?", container.NewPadded(text), a.window)
	d.SetButtons([]fyne.CanvasObject{
		answer("Keep working", widget.MediumImportance, func() {}),
		answer("Don't save", widget.DangerImportance, next),
		answer("Save", widget.HighImportance, func() { a.save(next) }),
	})
	d.Show()
}

// unlessThere runs next at once where no file is at the path or where the
// person has been asked about it, and else after they have said that it may be
// written over.
func (a *App) unlessThere(path string, asked bool, next func()) {
	if _, err := os.Stat(path); asked || err != nil {
		next()
		return
	}
	dialog.ShowConfirm("Overwrite?", wrap("There is a file "+path+" already. Write over it?", 70), func(yes bool) {
		if yes {
			next()
		}
	}, a.window)
}

// showError says what did not happen, and why.
func (a *App) showError(what string, err error) {
	dialog.ShowError(errors.New(what+"\n\n"+wrap(err.Error(), 90)), a.window)
}

// wrap breaks lines so that a long message fits a dialog.
func wrap(text string, width int) string {
	var out strings.Builder
	for _, paragraph := range strings.Split(text, "\n") {
		column := 0
		for i, word := range strings.Fields(paragraph) {
			size := len([]rune(word))
			switch {
			case i == 0:
			case column+1+size > width:
				out.WriteString("\n")
				column = 0
			default:
				out.WriteString(" ")
				column++
			}
			out.WriteString(word)
			column += size
		}
		out.WriteString("\n")
	}
	return strings.TrimRight(out.String(), "\n")
}

// choose asks for one of several things.
func (a *App) choose(title, about string, names []string, picked func(int)) {
	var d *dialog.CustomDialog
	box := container.NewVBox(widget.NewLabel(about))
	for i, name := range names {
		button := widget.NewButton(name, func() { d.Hide(); picked(i) })
		button.Alignment = widget.ButtonAlignLeading
		box.Add(button)
	}
	d = dialog.NewCustom(title, "Cancel", box, a.window)
	d.Show()
}

// renamePlan asks for another name of the plan that is shown.
func (a *App) renamePlan() {
	name := widget.NewEntry()
	name.Text = a.editor.Document().NameOf(a.editor.Plan())
	d := dialog.NewForm("Rename the plan", "Rename", "Cancel", []*widget.FormItem{widget.NewFormItem("Name", name)}, func(ok bool) {
		if text := strings.TrimSpace(name.Text); ok && text != "" {
			if err := a.editor.RenamePlan(a.editor.Plan(), text); err != nil {
				dialog.ShowError(err, a.window)
			}
			a.refresh()
		}
	}, a.window)
	d.Resize(fyne.NewSize(360, d.MinSize().Height))
	d.Show()
	a.window.Canvas().Focus(name)
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
