package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/analysis"
	"clampline/app/sheet"
	"clampline/diagram/edit"
)

// Menus of the window's own, before and after those of the editor.
const (
	menuFile  = "File"
	menuSurge = "Surge"
	menuHelp  = "Help"
)

// keyMenuBar opens the menu bar, and the arrows walk in it.
var keyMenuBar = edit.Key{Name: "F10"}

// quit is the name of the command that ends the program.
const quit = "quit"

// ownCommands returns the window's own commands.
func (a *App) ownCommands() []edit.Command {
	own := func(menu, name, label string, run func(), keys ...edit.Key) edit.Command {
		return edit.Command{Name: name, Label: label, Menu: menu, Keys: keys, Run: func(*edit.Editor) error { run(); return nil }}
	}
	control := func(name string) edit.Key { return edit.Key{Modifiers: edit.Control, Name: name} }
	shifted := func(name string) edit.Key { return edit.Key{Modifiers: edit.Control | edit.Shift, Name: name} }
	return slices.Concat(a.planCommands(), []edit.Command{
		own(menuFile, "new", "New", a.newSheet, control("N")),
		own(menuFile, "open", "Open …", a.open, control("O")),
		own(menuFile, "open demo", "Open a demo …", a.chooseDemo, shifted("O")),
		own(menuFile, "save", "Save", func() { a.save(nil) }, control("S")),
		own(menuFile, "save as", "Save as …", func() { a.saveAs(nil) }, shifted("S")),
		own(menuFile, "export", "Export drawing …", a.export, control("E")),
		own(menuFile, "hand over", "Hand over …", func() { a.openHandOver() }, shifted("H")),
		own(menuFile, "survey", "Survey sheets …", a.writeSurvey, shifted("E")),
		own(menuFile, "import survey", "Import survey …", a.importSurvey, shifted("T")),
		own(menuFile, "settings", "Settings …", a.settings, control(",")),
		own(menuFile, quit, "Quit", a.close, control("Q")),
		own(edit.MenuView, "findings", "Show or hide findings", func() { a.toggleView(viewFindings) }, shifted("F")),
		own(edit.MenuView, "compare", "Show or hide the comparison of plans", func() { a.toggleView(viewCompare) }, shifted("C")),
		own(edit.MenuView, "protectors", "Show or hide protectors", func() { a.toggleView(viewProtectors) }, shifted("K")),
		own(edit.MenuView, "legend", "Show or hide legend", a.toggleLegend, shifted("J")),
		own(edit.MenuView, "dark", "Light or dark", func() { a.setDark(!a.look.Dark) }, shifted("L")),
		own(menuSurge, "basis", "Hand rule or transient", a.switchBasis, control("B")),
		a.surgeCommand("next surge", "Next surge case", 1, shifted(edit.KeyPageDown)),
		a.surgeCommand("previous surge", "Previous surge case", -1, shifted(edit.KeyPageUp)),
		own(menuSurge, "edit surges", "Edit surge cases", a.editSurges, control("U")),
		a.sureCommand(shifted("B")),
		own(menuHelp, "keys", "Guide, commands and keys", a.showHelp, edit.Key{Name: "F1"}),
		own(menuHelp, "sources", aboutSources, a.showSources, edit.Key{Modifiers: edit.Control | edit.Shift, Name: "F1"}),
		own(menuHelp, "cautions", "Cautions", a.showCautions, edit.Key{Modifiers: edit.Shift, Name: "F1"}),
		own(menuHelp, "about", "About Clampline", a.showAbout, control("F1")),
	})
}

// editorCommands returns the commands of the editor. While an entry of the
// user's library is edited, undo and redo are about that, and not about the
// sheet behind it.
func (a *App) editorCommands() []edit.Command {
	out := edit.Commands()
	for i, command := range out {
		switch command.Name {
		case "undo":
			out[i].MayRun = func(*edit.Editor) bool { return a.canUndo() }
			out[i].Run = a.inEntry(a.library.undo, command.Run)
		case "redo":
			out[i].MayRun = func(*edit.Editor) bool { return a.canRedo() }
			out[i].Run = a.inEntry(a.library.redo, command.Run)
		case "new plan", "duplicate plan", "differences", "other plan":
			out[i].Run = a.tellingPlans(command)
		}
	}
	return out
}

// inEntry returns a command that does one thing while an entry of the library is
// edited, and another one else.
func (a *App) inEntry(own func(), other func(*edit.Editor) error) func(*edit.Editor) error {
	return func(e *edit.Editor) error {
		if a.library.editing == "" {
			return other(e)
		}
		own()
		return nil
	}
}

// canUndo reports whether there is something to take back.
func (a *App) canUndo() bool {
	if a.library.editing != "" {
		return len(a.library.past) > 0
	}
	return a.editor.CanUndo()
}

// canRedo reports whether there is something to do again.
func (a *App) canRedo() bool {
	if a.library.editing != "" {
		return len(a.library.future) > 0
	}
	return a.editor.CanRedo()
}

// surgeCommand goes on in the list of surge cases, on the basis on which they
// count.
func (a *App) surgeCommand(name, label string, by int, key edit.Key) edit.Command {
	return edit.Command{
		Name: name, Label: label, Menu: menuSurge, Keys: []edit.Key{key},
		MayRun: func(*edit.Editor) bool { return a.basis == analysis.Transient },
		Run:    func(*edit.Editor) error { a.stepSurge(by); return nil },
	}
}

// sureCommand tells how sure the voltages are, on the basis on which they are solved.
func (a *App) sureCommand(key edit.Key) edit.Command {
	return edit.Command{
		Name: "how sure", Label: "How sure, or stop", Menu: menuSurge, Keys: []edit.Key{key},
		MayRun: func(*edit.Editor) bool { return a.basis == analysis.Transient },
		Run:    func(*edit.Editor) error { a.howSure(); return nil },
	}
}

// runNamed runs the command with the name.
func (a *App) runNamed(name string) {
	for _, command := range a.commands {
		if command.Name == name {
			a.runCommand(command)
			return
		}
	}
}

// runCommand runs the command where it may run now. What is typed in a field
// counts, also where the field still has the focus.
func (a *App) runCommand(command edit.Command) {
	if a.window.Canvas().Focused() == nil {
		a.details.Unuse() // it came from a menu or a button
	}
	a.details.Commit()
	a.notice = notice{}
	if command.MayRun != nil && !command.MayRun(a.editor) {
		return
	}
	if err := command.Run(a.editor); err != nil {
		a.showError("Not done", err)
	}
	a.refresh()
}

// key runs the window's own command whose key it is and reports whether there
// is one. The editor knows the keys of its own.
func (a *App) key(pressed edit.Key) bool {
	if bar, ok := a.window.Canvas().(interface{ ToggleMenu() }); ok && pressed == keyMenuBar {
		bar.ToggleMenu() // as the toolkit does where Alt alone is pressed
		return true
	}
	for _, command := range a.own {
		if slices.Contains(command.Keys, pressed) {
			a.runCommand(command)
			return true
		}
	}
	return false
}

// listen takes the keys that come while nothing has the focus, as at the start
// and after a dialog, for the sheet.
func (a *App) listen() {
	canvas := a.window.Canvas()
	canvas.SetOnTypedKey(func(ev *fyne.KeyEvent) {
		q := a.asking()
		switch {
		case !a.isAsking():
			a.unfocusedKey(ev)
		case q != nil:
			q.key(ev)
		case ev.Name == fyne.KeyEscape:
			canvas.Overlays().Top().Hide()
			canvas.Overlays().Remove(canvas.Overlays().Top())
		}
	})
	if keys, ok := canvas.(desktop.Canvas); ok {
		keys.SetOnKeyDown(func(*fyne.KeyEvent) { // before Tab would look for a field
			if !a.details.Used() {
				a.focusSheet()
			}
		})
	}
	for _, command := range a.commands {
		for _, key := range command.Keys {
			if shortcut := shortcutOf(key); shortcut != nil {
				canvas.AddShortcut(shortcut, a.shortcut)
			}
		}
	}
}

// unfocusedKey takes a key that comes while nothing has the focus. After a click
// in the details that met no field it is not for the sheet: what is typed there
// is meant for a field. Escape leaves them; function keys are commands anywhere.
func (a *App) unfocusedKey(ev *fyne.KeyEvent) {
	name := string(ev.Name)
	switch isFunction := len(name) > 1 && name[0] == 'F'; {
	case !a.details.Used(), isFunction:
		if a.window.Canvas().Focused() == nil {
			a.focusSheet()
		}
		a.sheet.TypedKey(ev)
	case ev.Name == fyne.KeyEscape:
		a.focusSheet()
	}
}

// focusSheet puts the focus on the sheet, unless a dialog waits.
func (a *App) focusSheet() {
	if !a.isAsking() {
		a.window.Canvas().Focus(a.sheet)
	}
}

// shortcut runs the command whose key it is.
func (a *App) shortcut(shortcut fyne.Shortcut) {
	if a.isAsking() {
		return
	}
	for _, command := range a.commands {
		for _, key := range command.Keys {
			if s := shortcutOf(key); s != nil && s.ShortcutName() == shortcut.ShortcutName() {
				a.runCommand(command)
				return
			}
		}
	}
}

// shortcutOf returns the toolkit's shortcut for the key, or nil where it has
// no modifier and so is none.
func shortcutOf(key edit.Key) fyne.Shortcut {
	if key.Modifiers&^edit.Shift == 0 {
		return nil
	}
	if key.Modifiers == edit.Control {
		switch key.Name {
		case "Z":
			return &fyne.ShortcutUndo{}
		case "Y":
			return &fyne.ShortcutRedo{}
		case "A":
			return &fyne.ShortcutSelectAll{}
		case "C":
			return &fyne.ShortcutCopy{}
		case "X":
			return &fyne.ShortcutCut{}
		case "V":
			return &fyne.ShortcutPaste{}
		}
	}
	return &desktop.CustomShortcut{KeyName: sheet.ToolkitKey(key.Name), Modifier: modifierOf(key.Modifiers)}
}

func modifierOf(m edit.Modifiers) fyne.KeyModifier {
	var out fyne.KeyModifier
	if m.Has(edit.Control) {
		out |= fyne.KeyModifierShortcutDefault
	}
	if m.Has(edit.Shift) {
		out |= fyne.KeyModifierShift
	}
	if m.Has(edit.Alt) {
		out |= fyne.KeyModifierAlt
	}
	return out
}
