package app

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"clampline/app/look"
)

// Each dialog for a name lists its types.
func TestNamingListsTypes(t *testing.T) {
	for command, want := range map[string][]string{
		"save as": {"Sheet (*.clampline)"},
		"export":  {"PNG picture (*.png)", "SVG drawing (*.svg)", "PDF page (*.pdf)", "DXF drawing (*.dxf)"},
		"survey":  {"PDF pages (*.pdf)", "CSV table (*.csv)", "Page for a phone (*.html)"},
	} {
		a := start(t)
		a.workOn(house(t), "")
		run(t, a, command)
		if command == "survey" {
			answer(t, a, "A table to fill in at a computer (CSV)")
		}
		list := first[*look.Select](t, asked(t, a))
		if !slices.Equal(list.Options, want) {
			t.Errorf("%s: got %q, want %q", command, list.Options, want)
		}
		if command == "survey" && list.Selected != want[1] {
			t.Errorf("survey: %q is picked, want the table", list.Selected)
		}
	}
}

// A type that is picked is the ending of the name, and a name without one gets
// that of the type.
func TestNamingFollowsTheType(t *testing.T) {
	for _, row := range []struct{ typed, picked, want string }{
		{"hall.png", "SVG drawing (*.svg)", "hall.svg"},
		{"hall", "PDF page (*.pdf)", "hall.pdf"},
		{"hall.PNG", "SVG drawing (*.svg)", "hall.svg"},
		{"level 2.5", "SVG drawing (*.svg)", "level 2.5.svg"},
	} {
		a := start(t)
		a.workOn(house(t), "")
		run(t, a, "export")
		first[*nameField](t, asked(t, a)).SetText(row.typed)
		first[*look.Select](t, asked(t, a)).SetSelected(row.picked)
		answer(t, a, "Save")
		quiet(t, a)
		if !exists(filepath.Join(os.Getenv("HOME"), row.want)) {
			t.Errorf("%q as %q: %s is not there", row.typed, row.picked, row.want)
		}
	}
}

// A whole path may be typed, and Enter takes it.
func TestNamingTakesAPath(t *testing.T) {
	home := func(name string) string { return filepath.Join(os.Getenv("HOME"), name) }
	for _, row := range []struct {
		name  string
		typed func(elsewhere string) string
		want  func(elsewhere string) string
	}{
		{"from the root", func(e string) string { return filepath.Join(e, "foo.svg") }, func(e string) string { return filepath.Join(e, "foo.svg") }},
		{"without an ending", func(e string) string { return filepath.Join(e, "foo") }, func(e string) string { return filepath.Join(e, "foo.png") }},
		{"own folder", func(string) string { return "~/foo.pdf" }, func(string) string { return home("foo.pdf") }},
	} {
		a, elsewhere := start(t), t.TempDir()
		a.workOn(house(t), "")
		run(t, a, "export")
		field := first[*nameField](t, asked(t, a))
		if a.window.Canvas().Focused() != fyne.Focusable(field) || field.SelectedText() != field.Text {
			t.Errorf("%s: the field has not the focus with its name selected", row.name)
		}
		field.SetText(row.typed(elsewhere))
		press(a, fyne.KeyReturn)
		quiet(t, a)
		if want := row.want(elsewhere); !exists(want) {
			t.Errorf("%s: %s is not there", row.name, want)
		}
	}
}

func TestNamingOfFoldersAndFilesThatAreThere(t *testing.T) {
	a, elsewhere := start(t), t.TempDir()
	a.workOn(house(t), "")
	run(t, a, "export")
	enter := func(path string) {
		first[*nameField](t, asked(t, a)).SetText(path)
		press(a, fyne.KeyReturn)
	}
	enter(filepath.Join(elsewhere, "none", "foo.svg"))
	says(t, a, "There is no folder "+filepath.Join(elsewhere, "none"))
	answer(t, a, "Close")
	enter(elsewhere)
	says(t, a, filepath.Base(elsewhere)) // it is shown
	path := filepath.Join(elsewhere, "foo.svg")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	enter(path)
	says(t, a, "Overwrite?")
	answer(t, a, "No")
	if text, _ := os.ReadFile(path); string(text) != "old" {
		t.Fatal("the file was written over")
	}
	enter(path)
	answer(t, a, "Yes")
	quiet(t, a)
	if text, _ := os.ReadFile(path); !strings.Contains(string(text), "<svg") {
		t.Error("the file was not written over")
	}
}

// The dialog stands in the middle of the window, all of it to be seen.
func TestNamingIsSeen(t *testing.T) {
	a := start(t)
	a.window.Resize(fyne.NewSize(1366, 740))
	run(t, a, "save as")
	driver := fyne.CurrentApp().Driver()
	field := first[*nameField](t, asked(t, a))
	at, window := driver.AbsolutePositionForObject(field), a.window.Canvas().Size()
	if foot := at.Y + field.Size().Height; foot > window.Height-60 || at.X > window.Width/3 {
		t.Errorf("the field lies at %v in a window of %v, want it in the left foot of a dialog in the middle", at, window)
	}
	if field.Size().Width < 300 {
		t.Errorf("the field is %g px wide", field.Size().Width)
	}
}

// Escape closes the dialog while the name has the focus, and writes nothing.
func TestNamingEscapes(t *testing.T) {
	for _, command := range []string{"save as", "export"} {
		a := start(t)
		a.workOn(house(t), "")
		run(t, a, command)
		first[*nameField](t, asked(t, a)).SetText("foo")
		press(a, fyne.KeyEscape)
		quiet(t, a)
		if entries, _ := os.ReadDir(os.Getenv("HOME")); len(entries) > 0 {
			t.Errorf("%s: %v was written", command, entries)
		}
		if got := a.window.Canvas().Focused(); got != fyne.Focusable(a.sheet) {
			t.Errorf("%s: %T has the focus, want the sheet", command, got)
		}
	}
}

// A dialog for a file says what it is for, and not only that it is about a file.
func TestFileDialogsSayWhatTheyAreFor(t *testing.T) {
	for command, want := range map[string]string{"open": "Open", "save as": "Save", "export": "Export drawing", "import survey": "Import survey"} {
		a := start(t)
		a.workOn(house(t), "")
		run(t, a, command)
		if got := wordsOf(asked(t, a)); !strings.Contains(got, want) || strings.Contains(got, "Open File") || strings.Contains(got, "Save File") {
			t.Errorf("%s: the dialog says %.200q", command, got)
		}
	}
}
