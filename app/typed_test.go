package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// What is typed after a click in the details that met no field arms no tool, and
// after Escape or a click on the sheet it does.
func TestTypingBesideAFieldArmsNothing(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	focusedField(t, a, "panel-1")
	margin := fyne.CurrentApp().Driver().AbsolutePositionForObject(a.details.Object()).AddXY(4, 4)
	a.window.Canvas().Unfocus() // as the press of a button does
	test.TapCanvas(a.window.Canvas(), margin)
	for _, name := range []fyne.KeyName{"4", "0", "F", "B", "P", fyne.KeyDelete} {
		press(a, name)
		if armed := a.editor.Armed(); armed != "" {
			t.Fatalf("%s armed %q", name, armed)
		}
	}
	if !a.editor.Document().Has("panel-1") {
		t.Error("Delete took the panel")
	}
	press(a, fyne.KeyEscape)
	if a.window.Canvas().Focused() != fyne.Focusable(a.sheet) {
		t.Errorf("after Escape %T has the focus", a.window.Canvas().Focused())
	}
	press(a, "4")
	if a.editor.Armed() == "" {
		t.Error("after Escape the keys of the sheet do nothing")
	}
}

// An entry of the library is closed with the list that it was opened from.
func TestEntryIsClosedWithItsList(t *testing.T) {
	for name, leave := range map[string]func(*App){
		"the drawer closed":        func(a *App) { a.setDrawer(false) },
		"another view":             func(a *App) { a.showView(viewFindings) },
		"another view, by its tab": func(a *App) { tapTab(a, viewFindings) },
	} {
		a := shelved(t, libraryPath(t))
		change(t, a, "Mains")
		pressed(t, a, "Duplicate")
		leave(a)
		if a.library.editing != "" {
			t.Errorf("%s: the entry is still edited", name)
		}
		a.shortcut(&fyne.ShortcutUndo{})
		if a.editor.CanUndo() {
			t.Errorf("%s: undo is not of the sheet", name)
		}
	}
}

// tapTab picks a view by its tab, as a click does.
func tapTab(a *App, name string) {
	for _, o := range test.LaidOutObjects(a.regions.drawer.Object()) {
		if tab, ok := o.(fyne.Tappable); ok && containsText(o, name) {
			tab.Tapped(&fyne.PointEvent{})
			return
		}
	}
}

func containsText(o fyne.CanvasObject, name string) bool {
	words := wordsOf(o)
	return len(words) >= len(name) && words[:len(name)] == name && len(words) < len(name)+6
}
