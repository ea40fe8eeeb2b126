package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/diagram/edit"
)

// Menus of the window's own, before and after those of the editor.
const (
	menuFile = "File"
	menuHelp = "Help"
)

// allCommands returns the window's own commands and those of the editor.
func (a *App) allCommands() []edit.Command {
	own := func(menu, name, label string, run func(), keys ...edit.Key) edit.Command {
		return edit.Command{Name: name, Label: label, Menu: menu, Keys: keys, Run: func(*edit.Editor) error { run(); return nil }}
	}
	control := func(name string) edit.Key { return edit.Key{Modifiers: edit.Control, Name: name} }
	return append([]edit.Command{
		own(menuFile, "new", "New", a.newSheet, control("N")),
		own(menuFile, "open", "Open …", a.open, control("O")),
		own(menuFile, "open demo", "Open a demo …", a.openDemo),
		own(menuFile, "save", "Save", func() { a.save(nil) }, control("S")),
		own(menuFile, "save as", "Save as …", func() { a.saveAs(nil) }, edit.Key{Modifiers: edit.Control | edit.Shift, Name: "S"}),
		own(menuFile, "export", "Export drawing …", a.export, control("E")),
		own(menuFile, "settings", "Settings …", a.settings, control(",")),
		own(edit.MenuView, "findings", "Show or hide findings", func() { a.setDrawer(!a.regions.open) }, edit.Key{Modifiers: edit.Control | edit.Shift, Name: "F"}),
		own(edit.MenuView, "dark", "Light or dark", func() { a.setDark(!a.look.Dark) }, edit.Key{Modifiers: edit.Control | edit.Shift, Name: "L"}),
		own(edit.MenuPlan, "rename plan", "Rename plan …", a.renamePlan),
		own(menuHelp, "keys", "Commands and keys", a.showKeys, edit.Key{Name: "F1"}),
		own(menuHelp, "cautions", "Cautions", a.showCautions),
		own(menuHelp, "about", "About Clampline", a.showAbout),
	}, edit.Commands()...)
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

// runCommand runs the command where it may run now.
func (a *App) runCommand(command edit.Command) {
	if command.MayRun != nil && !command.MayRun(a.editor) {
		return
	}
	if err := command.Run(a.editor); err != nil {
		dialog.ShowError(err, a.window)
	}
	a.refresh()
}

// shortcut runs the command whose key it is.
func (a *App) shortcut(shortcut fyne.Shortcut) {
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
	return &desktop.CustomShortcut{KeyName: fyne.KeyName(key.Name), Modifier: modifierOf(key.Modifiers)}
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
