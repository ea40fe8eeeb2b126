package app

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

// outside changes the file as another program does.
func outside(t *testing.T, path, name string) {
	t.Helper()
	doc, err := file.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		part, _ := tx.Part("panel-1")
		part.Name = name
		tx.SetPart(part)
	})
	var text strings.Builder
	if err := file.Write(&text, doc); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// partsIn returns what the file calls the supply and the panel.
func partsIn(t *testing.T, path string) string {
	t.Helper()
	doc, err := file.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return doc.NameOf("supply-1") + ", " + doc.NameOf("panel-1")
}

// changedOutside starts the program with a file that was changed outside and, where
// mine is not empty, in the window, too.
func changedOutside(t *testing.T, mine string) (*App, string) {
	t.Helper()
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	a.OpenPath(path)
	outside(t, path, "Theirs")
	if mine != "" {
		change(t, a, mine)
	}
	return a, path
}

func TestChangedFileIsNoticedOnReturn(t *testing.T) {
	a, path := changedOutside(t, "")
	a.Returned()
	says(t, a, "house.clampline was changed by another program at ")
	says(t, a, "panel Main (panel-1): name Main → Theirs")
	answer(t, a, "Not now")
	a.Returned()
	quiet(t, a) // the person knows
	outside(t, path, "Theirs again")
	a.Returned()
	answer(t, a, "Reload")
	quiet(t, a)
	if got := a.editor.Document().NameOf("panel-1"); got != "Theirs again" || !a.editor.IsSaved() {
		t.Errorf("got %q, saved %t", got, a.editor.IsSaved())
	}
	a.Returned()
	change(t, a, "Mine")
	run(t, a, "save")
	quiet(t, a)
}

func TestChangedFileIsNotWrittenOverUnasked(t *testing.T) {
	for reply, want := range map[string]string{"Not now": "Grid, Theirs", "Reload": "Grid, Theirs", "Overwrite": "Mine, Main"} {
		t.Run(reply, func(t *testing.T) {
			a, path := changedOutside(t, "Mine")
			run(t, a, "save")
			says(t, a, "You have changes here that are not saved.")
			says(t, a, "2 things differ")
			if got := partsIn(t, path); got != "Grid, Theirs" {
				t.Errorf("before the answer: %s", got)
			}
			answer(t, a, reply)
			quiet(t, a)
			if got := partsIn(t, path); got != want {
				t.Errorf("got %s, want %s", got, want)
			}
			if saved := a.editor.IsSaved(); saved != (reply != "Not now") {
				t.Errorf("saved: %t", saved)
			}
		})
	}
}

// What changed while the question stood is asked about again.
func TestOverwriteIsOfWhatWasSeen(t *testing.T) {
	a, path := changedOutside(t, "Mine")
	run(t, a, "save")
	outside(t, path, "Theirs again")
	answer(t, a, "Overwrite")
	says(t, a, "Main → Theirs again")
	answer(t, a, "Overwrite")
	quiet(t, a)
	if got := partsIn(t, path); got != "Mine, Main" {
		t.Errorf("got %s", got)
	}
	if got := partsIn(t, path+".bak"); got != "Grid, Theirs again" {
		t.Errorf("the backup has %s, want what was written over", got)
	}
}

func TestChangedFileUnderAnotherName(t *testing.T) {
	a, path := changedOutside(t, "Mine")
	run(t, a, "save")
	answer(t, a, "Save as …")
	other := filepath.Join(filepath.Dir(path), "other.clampline")
	nameFile(t, a, "", other)
	quiet(t, a)
	if got := partsIn(t, path) + "; " + partsIn(t, other); got != "Grid, Theirs; Mine, Main" || a.path != other {
		t.Errorf("got %s under %s", got, a.path)
	}
}

func TestFileThatIsGone(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	a.OpenPath(path)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	a.Returned()
	if !strings.Contains(a.noticed(), "moved or removed") || a.editor.IsSaved() {
		t.Errorf("the line says %q, saved %t", a.noticed(), a.editor.IsSaved())
	}
	run(t, a, "save")
	quiet(t, a)
	if got := partsIn(t, path); got != "Grid, Main" {
		t.Errorf("got %s", got)
	}
}

func TestTwoWindowsOnOneFile(t *testing.T) {
	one := start(t)
	path := saved(t, house(t), "house.clampline")
	one.OpenPath(path)
	second := startIn(t, one.app)
	second.OpenPath(path)
	says(t, second, "house.clampline is open already")
	answer(t, second, "Cancel")
	if second.path != "" {
		t.Errorf("it was opened: %s", second.path)
	}
	second.OpenPath(path)
	answer(t, second, "Open for reading")
	if second.window.Title() != "house.clampline (for reading) – Clampline" || second.savedText() != "open for reading" {
		t.Errorf("titled %q, and the line says %q", second.window.Title(), second.savedText())
	}
	change(t, second, "Second")
	run(t, second, "save")
	if field := first[*nameField](t, asked(t, second)); field.Text != "house copy.clampline" {
		t.Errorf("the name suggested is %q", field.Text)
	}
	answer(t, second, "Cancel")
	second.write(path, nil)
	says(t, second, "It is open elsewhere")
	answer(t, second, "Close")
	one.close()
	run(t, second, "save") // now that the other has closed it
	quiet(t, second)
	if got := partsIn(t, path); got != "Second, Main" || second.held.reading {
		t.Errorf("got %s, for reading: %t", got, second.held.reading)
	}
	second.close()
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".*")); len(left) > 0 {
		t.Errorf("left: %q", left)
	}
}

// The same file in the same window is no other window.
func TestOpenAgain(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	for range 3 {
		a.OpenPath(path)
		quiet(t, a)
	}
	change(t, a, "Mine")
	run(t, a, "save")
	quiet(t, a)
	if got := partsIn(t, path); got != "Mine, Main" {
		t.Errorf("got %s", got)
	}
}

func TestReadOnlyFileIsAskedAbout(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are of another sort there")
	}
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	a.OpenPath(path)
	change(t, a, "Mine")
	for reply, want := range map[string]string{"No": "Grid, Main", "Write over it": "Mine, Main"} {
		if a.editor.IsSaved() {
			change(t, a, "Grid") // the order of the two replies is of chance
			if reply == "No" {
				want = "Mine, Main"
			}
		}
		run(t, a, "save")
		says(t, a, "read-only")
		answer(t, a, reply)
		quiet(t, a)
		if got := partsIn(t, path); got != want {
			t.Errorf("%s: got %s, want %s", reply, got, want)
		}
	}
}

func TestBackupThatCannotBeMadeIsTold(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	if err := os.Mkdir(path+".bak", 0o755); err != nil {
		t.Fatal(err)
	}
	a.OpenPath(path)
	change(t, a, "Mine")
	run(t, a, "save")
	says(t, a, "No backup could be made of what stood there before")
	if got := partsIn(t, path); got != "Mine, Main" || !a.editor.IsSaved() {
		t.Errorf("got %s, saved %t", got, a.editor.IsSaved())
	}
	answer(t, a, "Close")
	change(t, a, "Mine again")
	run(t, a, "save")
	quiet(t, a)
	if got := a.noticed(); !strings.HasPrefix(got, "Saved. No backup could be made") {
		t.Errorf("the second time the line says %q", got)
	}
}

func TestFileThatIsNotAsItWasSaved(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	if err := filetest.Save(path, demo(t, 0)); err != nil {
		t.Fatal(err)
	}
	if err := filetest.Save(path, house(t)); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(text), `"length": 12`, `"length": 13`, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	a.OpenPath(path)
	says(t, a, "its checksum does not fit")
	says(t, a, "kept as house.clampline.bak")
	answer(t, a, "Open the backup")
	quiet(t, a)
	if parts, _, _ := a.editor.Document().Count(); parts < 5 || a.path != path || a.editor.IsSaved() {
		t.Errorf("%d parts under %s, saved %t", parts, a.path, a.editor.IsSaved())
	}
}

func TestExportsKeepOffSheets(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	link := filepath.Join(t.TempDir(), "house.svg")
	if err := os.Symlink(path, link); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	a.OpenPath(path)
	a.drawTo(link)
	says(t, a, "name of a sheet")
	answer(t, a, "Close")
	a.library.exportTo(path)
	says(t, a, "name of a sheet")
	answer(t, a, "Close")
	if got := partsIn(t, path); got != "Grid, Main" {
		t.Errorf("got %s", got)
	}
}
