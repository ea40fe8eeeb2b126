package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"clampline/app/look"
)

// pressTab does what the toolkit's window does with the Tab key.
func pressTab(a *App) {
	canvas := a.window.Canvas()
	if keys, ok := canvas.(desktop.Canvas); ok && canvas.Focused() == nil && keys.OnKeyDown() != nil {
		keys.OnKeyDown()(&fyne.KeyEvent{Name: fyne.KeyTab})
	}
	if field, ok := canvas.Focused().(fyne.Tabbable); ok && field.AcceptsTab() {
		press(a, fyne.KeyTab)
		return
	}
	canvas.FocusNext()
}

// Tab leads from an empty sheet to its start buttons, Enter presses them.
func TestStartButtonsByKeyboard(t *testing.T) {
	a := start(t)
	pressTab(a)
	button, ok := a.window.Canvas().Focused().(*look.Button)
	if !ok || button.Text != "Start with a service and a main switchboard" {
		t.Fatalf("Tab leads to %T, want the first start button", a.window.Canvas().Focused())
	}
	pressTab(a)
	if button, ok := a.window.Canvas().Focused().(*look.Button); !ok || button.Text != "Open a demo …" {
		t.Errorf("a second Tab leads to %T, want the second one", a.window.Canvas().Focused())
	}
	a.window.Canvas().Focus(button)
	press(a, fyne.KeyReturn)
	if parts, _, _ := a.editor.Document().Count(); parts != 2 || a.window.Canvas().Focused() != fyne.Focusable(a.sheet) {
		t.Errorf("%d parts, the focus is on %T; want two and the sheet", parts, a.window.Canvas().Focused())
	}
	pressTab(a)
	if selected := a.editor.Selection(); len(selected) != 1 {
		t.Errorf("on a sheet with parts Tab selects %v, want the first", selected)
	}
}

// The keys of Help do the same from wherever the focus is: Escape gives it
// back, P takes up a protector, F1 opens Help, also from a field to type in. While
// the details were last used, letters are no commands: they were meant for a field.
func TestKeysFromEverywhere(t *testing.T) {
	for _, row := range []struct {
		name  string
		typed bool // letters are text there
		focus func(a *App) fyne.Focusable
	}{
		{"a field of the details", true, func(a *App) fyne.Focusable { return focusedField(t, a, "panel-1") }},
		{"a list of the details", false, func(a *App) fyne.Focusable { return first[*look.Select](t, a.details.Object()) }},
		{"a box of the drawer", false, func(a *App) fyne.Focusable { return first[*look.Check](t, a.regions.drawer.Object()) }},
		{"a button of the drawer", false, func(a *App) fyne.Focusable { return first[*look.Button](t, a.regions.drawer.Object()) }},
		{"a button of the bar", false, func(a *App) fyne.Focusable { return first[*look.Button](t, a.bar.object) }},
		{"the list of plans", false, func(a *App) fyne.Focusable { return a.bar.plan }},
		{"the search", true, func(a *App) fyne.Focusable { return searchField(t, a) }},
		{"the sheet", false, func(a *App) fyne.Focusable { return a.sheet }},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			a.workOn(house(t), "")
			a.editor.Select("panel-1")
			a.refresh()
			window := a.window.Canvas()
			window.Focus(row.focus(a))
			press(a, fyne.KeyF1)
			says(t, a, "Help")
			press(a, fyne.KeyEscape)
			quiet(t, a)
			if row.typed {
				return
			}
			a.editor.Select() // the details are those of the sheet now
			a.refresh()
			window.Focus(row.focus(a))
			press(a, fyne.KeyP)
			pressTab(a)
			press(a, fyne.KeyReturn)
			want := 1
			if row.name == "a list of the details" {
				want = 0
			}
			if _, _, protectors := a.editor.Document().Count(); protectors != want {
				t.Errorf("P, Tab and Enter made %d protectors, want %d (%s)", protectors, want, a.editor.Status())
			}
		})
	}
}

// Escape leaves a list and a box of the details for the sheet.
func TestEscapeLeaves(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("panel-1")
	a.refresh()
	canvas := a.window.Canvas()
	for _, field := range []fyne.Focusable{first[*look.Select](t, a.details.Object()), first[*look.Check](t, a.details.Object()), a.bar.plan} {
		canvas.Focus(field)
		press(a, fyne.KeyEscape)
		if canvas.Focused() == field {
			t.Errorf("Escape does not leave the %T", field)
		}
	}
}

// After a pick in the bar keys are about the sheet again.
func TestBarGivesTheFocusBack(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.window.Canvas().Focus(a.bar.basis)
	a.bar.basis.SetSelected(a.bar.basis.Options[1])
	if got := a.window.Canvas().Focused(); got != fyne.Focusable(a.sheet) {
		t.Errorf("%T has the focus, want the sheet", got)
	}
}

// A double click on a part selects its name, so that typing replaces it.
func TestDoubleClickSelectsTheName(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("panel-1")
	a.focusDetails()
	field, ok := a.window.Canvas().Focused().(interface{ SelectedText() string })
	if !ok || field.SelectedText() != "Main" {
		t.Fatalf("%T has the focus, want the field of the name with all of it selected", a.window.Canvas().Focused())
	}
	test.Type(a.window.Canvas().Focused(), "Hall")
	press(a, fyne.KeyReturn)
	if got := a.editor.Document().NameOf("panel-1"); got != "Hall" {
		t.Errorf("the name is %q, want what was typed", got)
	}
}

// The focus is seen on each reply and list of a question, in light and dark.
func TestFocusIsSeenInQuestions(t *testing.T) {
	for _, dark := range []bool{false, true} {
		a := start(t)
		a.setDark(dark)
		run(t, a, "settings")
		var fields []fyne.Focusable
		for _, list := range all[*picker](asked(t, a)) {
			fields = append(fields, list)
		}
		for _, reply := range all[*button](asked(t, a)) {
			fields = append(fields, reply)
		}
		if len(fields) < 4 {
			t.Fatalf("the settings have %d fields", len(fields))
		}
		for _, field := range fields {
			a.window.Canvas().Focus(field)
			line := focusLine(field.(fyne.Widget))
			if line == nil || line.StrokeColor != theme.Color(theme.ColorNameForeground) {
				t.Errorf("dark %t: the focus is not seen on a %T", dark, field)
			}
			a.window.Canvas().Unfocus()
			if focusLine(field.(fyne.Widget)) != nil {
				t.Errorf("dark %t: the line stays on a %T", dark, field)
			}
		}
	}
}

// first returns the first object of a type within another.
func first[T any](t testing.TB, o fyne.CanvasObject) T {
	t.Helper()
	found := all[T](o)
	if len(found) == 0 {
		t.Fatal("there is none of the wanted type")
	}
	return found[0]
}

// searchField returns the field for words in the drawer.
func searchField(t *testing.T, a *App) fyne.Focusable {
	t.Helper()
	for _, field := range all[fyne.Focusable](a.regions.drawer.Object()) {
		if text, ok := field.(interface{ SelectedText() string }); ok && text != nil {
			return field
		}
	}
	t.Fatal("there is no field for words")
	return nil
}

// focusLine returns the line that shows the focus of a widget, or nil.
func focusLine(w fyne.Widget) *canvas.Rectangle {
	for _, o := range test.WidgetRenderer(w).Objects() {
		if line, ok := o.(*canvas.Rectangle); ok && line.Visible() && line.StrokeWidth == 1.5 {
			return line
		}
	}
	return nil
}
