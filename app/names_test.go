package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/storage"

	"clampline/diagram"
)

const strange = "\u202egnp.\x1b[31m"

// Names of files and of what is drawn are text wherever the window shows them.
func TestNamesAreText(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "a"+strange+".clampline")
	a.OpenPath(path)
	change(t, a, strange)
	if got := a.window.Title(); strings.Contains(got, "\u202e") || !strings.Contains(got, `\u202e`) || !strings.Contains(got, `\x1b`) {
		t.Errorf("the title is %q", got)
	}
	a.note("written to " + path)
	if got := a.noticed(); strings.ContainsAny(got, "\u202e\x1b") {
		t.Errorf("the line says %q", got)
	}
	a.showMessage("Title", path)
	if got := wordsOf(asked(t, a)); strings.ContainsAny(got, "\u202e\x1b") {
		t.Errorf("the dialog says %q", got)
	}
	if got := a.menu.recent.ChildMenu.Items[0].Label; strings.ContainsAny(got, "\u202e\x1b") {
		t.Errorf("the menu says %q", got)
	}
	if got := a.editor.Document().NameOf(diagram.ID("supply-1")); strings.ContainsAny(got, "\u202e\x1b") {
		t.Errorf("the part is %q", got)
	}
}

func TestNamesInFileDialogs(t *testing.T) {
	start(t)
	folder := t.TempDir()
	path := filepath.Join(folder, "a"+strange+".clampline")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	list, err := storage.List(storage.NewFileURI(folder))
	if err != nil || len(list) != 1 {
		t.Fatal(list, err)
	}
	if got := list[0].Name(); strings.ContainsAny(got, "\u202e\x1b") {
		t.Errorf("got the name %q", got)
	}
	if list[0].Path() != path {
		t.Errorf("got the path %q", list[0].Path())
	}
}
