package drawer

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// libraryBar is what says which protectors are listed, and what is done with
// the user's own as a whole.
type libraryBar struct {
	search *search
	only   *look.Check
	told   *look.Faint
	all    *look.Button
	add    *look.Button
	from   *look.Button
	to     *look.Button
	broken *widget.Label // why the user's own are not there
	reload *look.Button
}

func newLibraryBar(l *Library) *libraryBar {
	b := &libraryBar{told: look.NewFaint(""), broken: widget.NewLabel("")}
	b.search = newSearch(func(text string) { l.words = text; l.relist() }, l.list.takeFocus)
	b.only = look.NewCheck("", func(on bool) {
		if l.only != on {
			l.only = on
			l.relist()
		}
	})
	b.all = look.NewButton("Show all", l.showAll)
	b.add = look.NewIconButton("", theme.ContentAddIcon(), func() { l.hands.Add() })
	b.from = look.NewButton("Import …", func() { l.hands.Import() })
	b.to = look.NewButton("Export …", func() { l.hands.Export() })
	b.broken.Importance, b.broken.Wrapping = widget.DangerImportance, fyne.TextWrapWord
	b.reload = look.NewButton("Read it again", func() { l.hands.Reload() })
	return b
}

// objects returns what stands above the list, in the order of its going through
// by key.
func (b *libraryBar) objects() []fyne.CanvasObject {
	search := container.NewGridWrap(fyne.NewSize(searchWidth, b.search.MinSize().Height), b.search)
	return []fyne.CanvasObject{search, b.only, b.told, b.all, b.add, b.from, b.to}
}

// trouble returns what stands above all else where the user's file cannot be
// read.
func (b *libraryBar) trouble() fyne.CanvasObject {
	return container.NewBorder(nil, nil, nil, container.NewVBox(b.reload), b.broken)
}

// show brings it up to date with what is listed.
func (b *libraryBar) show(l *Library) {
	b.showOnly(l)
	b.told.SetText(l.tally())
	setVisible(b.all, len(l.kept) < len(l.state.Entries))
	mine := l.state.Broken == ""
	b.showAdd(l, mine)
	setEnabled(b.from, mine)
	setEnabled(b.to, mine && l.own() > 0)
	setVisible(b.broken, !mine)
	setVisible(b.reload, !mine)
	if b.broken.Text != l.state.Broken {
		b.broken.SetText(l.state.Broken)
	}
}

// showOnly offers to leave out what does not fit, where a bus is selected.
func (b *libraryBar) showOnly(l *Library) {
	text := "Only those that are OK (select a panel)"
	if len(l.state.Buses) > 0 {
		text = "Only those OK for " + l.onBus()
	}
	setEnabled(b.only, len(l.state.Buses) > 0)
	if b.only.Text != text || b.only.Checked != l.only {
		b.only.Text, b.only.Checked = text, l.only
		b.only.Refresh()
	}
}

// showAdd offers to take the selected protector into the user's own.
func (b *libraryBar) showAdd(l *Library, mine bool) {
	text := "Add the selected protector"
	if l.state.Protector != "" {
		text = "Add " + cutTo(l.state.ProtectorName, nameRunes) + " to my library"
	}
	setEnabled(b.add, mine && l.state.Protector != "")
	if b.add.Text != text {
		b.add.SetText(text)
	}
}

// setEnabled lets something be pressed or not.
func setEnabled(o fyne.Disableable, on bool) {
	switch {
	case on && o.Disabled():
		o.Enable()
	case !on && !o.Disabled():
		o.Disable()
	}
}
