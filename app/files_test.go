package app

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

func TestTitle(t *testing.T) {
	a := start(t)
	if got, want := a.window.Title(), "New sheet – Clampline"; got != want {
		t.Errorf("at the start: got %q, want %q", got, want)
	}
	change(t, a, "Grid")
	if got, want := a.window.Title(), "• New sheet – Clampline"; got != want {
		t.Errorf("after a change: got %q, want %q", got, want)
	}
	a.write(filepath.Join(t.TempDir(), "barn.clampline"), nil)
	if got, want := a.window.Title(), "barn.clampline – Clampline"; got != want {
		t.Errorf("after saving: got %q, want %q", got, want)
	}
	change(t, a, "Mains")
	run(t, a, "undo")
	if got, want := a.window.Title(), "barn.clampline – Clampline"; got != want {
		t.Errorf("back at what was saved: got %q, want %q", got, want)
	}
}

func TestSaveAs(t *testing.T) {
	for _, row := range []struct{ name, typed, want string }{
		{"without the ending", "barn", "barn.clampline"},
		{"with it", "barn.clampline", "barn.clampline"},
		{"with another", "barn.txt", "barn.txt.clampline"},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			change(t, a, "Grid")
			run(t, a, "save")
			nameFile(t, a, "", row.typed)
			quiet(t, a)
			folder := os.Getenv("HOME")
			doc, err := file.Load(filepath.Join(folder, row.want))
			if err != nil {
				t.Fatal(err)
			}
			if part, _ := doc.Part("supply-1"); part.Name != "Grid" {
				t.Errorf("the file holds %q, want %q", part.Name, "Grid")
			}
			if entries, _ := filepath.Glob(filepath.Join(folder, "[^.]*")); len(entries) != 1 {
				t.Errorf("got %v in the folder, want one file", entries)
			}
			if !a.editor.IsSaved() || a.path != filepath.Join(folder, row.want) {
				t.Errorf("saved %t under %q", a.editor.IsSaved(), a.path)
			}
		})
	}
}

func TestNewNameIsTypedOverTheOld(t *testing.T) {
	a := start(t)
	a.OpenPath(saved(t, house(t), "house.clampline"))
	run(t, a, "save as")
	name, ok := a.window.Canvas().Focused().(field)
	if !ok {
		t.Fatalf("%T has the focus, want the field for the name", a.window.Canvas().Focused())
	}
	if got := name.SelectedText(); got != "house.clampline" {
		t.Errorf("%q is selected, want the whole name", got)
	}
	typeIn(name, "barn")
	answer(t, a, "Save")
	if got := filepath.Base(a.path); got != "barn.clampline" {
		t.Errorf("saved as %q", got)
	}
}

// A name that is typed without its ending may be that of a file, which the
// toolkit's dialog does not see.
func TestSaveAsOverAFile(t *testing.T) {
	for _, row := range []struct {
		name, typed, reply string
		over               bool
	}{
		{"kept", "barn", "No", false},
		{"written over", "barn", "Yes", true},
		{"kept, with the ending typed", "barn.clampline", "No", false},
		{"written over, with the ending typed", "barn.clampline", "Yes", true},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			path := filepath.Join(os.Getenv("HOME"), "barn.clampline")
			if err := filetest.Save(path, house(t)); err != nil {
				t.Fatal(err)
			}
			old, _ := os.ReadFile(path)
			change(t, a, "Another")
			run(t, a, "save as")
			nameFile(t, a, "", row.typed)
			says(t, a, "Overwrite?")
			answer(t, a, row.reply)
			now, err := os.ReadFile(path)
			if err != nil || bytes.Equal(now, old) == row.over {
				t.Errorf("written over: %t, want %t (%v)", !bytes.Equal(now, old), row.over, err)
			}
			if a.editor.IsSaved() != row.over {
				t.Errorf("saved: %t, want %t", a.editor.IsSaved(), row.over)
			}
			if backup, _ := os.ReadFile(path + file.BackupExtension); row.over && !bytes.Equal(backup, old) {
				t.Errorf("the backup holds %d bytes, want the %d of the file before", len(backup), len(old))
			}
		})
	}
}

func TestSaveThatFails(t *testing.T) {
	a := start(t)
	change(t, a, "Grid")
	a.write(filepath.Join(t.TempDir(), "nowhere", "barn.clampline"), func() { t.Error("went on as if it were saved") })
	says(t, a, "Not saved")
	says(t, a, "There is no such folder")
	if a.editor.IsSaved() || a.path != "" {
		t.Errorf("saved %t under %q, want not saved and without a name", a.editor.IsSaved(), a.path)
	}
}

func TestOpenPath(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	a.OpenPath(path)
	quiet(t, a)
	if _, ok := a.editor.Document().Part("panel-1"); !ok || a.path != path || !a.editor.IsSaved() {
		t.Errorf("opened %t, under %q, saved %t", ok, a.path, a.editor.IsSaved())
	}
	box := a.editor.Scene().Bounds()
	if !a.editor.View().Rect().Holds(box) {
		t.Errorf("the view %v does not show the sheet %v", a.editor.View().Rect(), box)
	}
}

func TestOpenThroughTheDialog(t *testing.T) {
	a := start(t)
	path := filepath.Join(os.Getenv("HOME"), "house.clampline")
	if err := filetest.Save(path, house(t)); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(os.Getenv("HOME"), "a.txt"), []byte("no sheet"), 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, a, "open")
	pick(t, a, "house.clampline")
	answer(t, a, "Open")
	quiet(t, a)
	if a.path != path {
		t.Errorf("opened %q, want %q", a.path, path)
	}
}

func TestOpenBrokenFile(t *testing.T) {
	a := start(t)
	a.OpenPath(saved(t, house(t), "house.clampline"))
	change(t, a, "Mains")
	for name, text := range map[string]string{
		"empty": "", "no JSON": "{\n  nonsense", "no sheet": `{"format": "other"}`,
	} {
		path := filepath.Join(t.TempDir(), "broken.clampline")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		a.OpenPath(path)
		says(t, a, "Not opened")
		says(t, a, "broken.clampline")
		answer(t, a, "Close")
		if part, _ := a.editor.Document().Part("supply-1"); part.Name != "Mains" || a.editor.IsSaved() || filepath.Base(a.path) != "house.clampline" {
			t.Errorf("%s: what was open is not as it was", name)
		}
		if slices.Contains(a.prefs.recent(), path) {
			t.Errorf("%s: a file that was not opened is a recent one", name)
		}
	}
}

// The backup is spoken of where there is one.
func TestBackupOfABrokenFile(t *testing.T) {
	for _, text := range []string{"", "{\n  nonsense", "{\"format\": \"clampline\", \"version\": 1", "\xff\xfe\xff"} {
		path := filepath.Join(t.TempDir(), "broken.clampline")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		a := start(t)
		a.OpenPath(path)
		got := strings.Join(strings.Fields(wordsOf(asked(t, a))), " ")
		if strings.Contains(got, "backup") || strings.Count(got, path) != 1 {
			t.Errorf("%q without a backup: the dialog says %q", text, got)
		}
		answer(t, a, "Close")
		backup, err := os.ReadFile(saved(t, house(t), "good.clampline"))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path+file.BackupExtension, backup, 0o600); err != nil {
			t.Fatal(err)
		}
		a.OpenPath(path)
		answer(t, a, "Open the backup")
		quiet(t, a)
		if parts, _, _ := a.editor.Document().Count(); parts == 0 || a.path != path || a.editor.IsSaved() {
			t.Errorf("%q: got %d parts at %q, saved %t; want the backup, not saved", text, parts, a.path, a.editor.IsSaved())
		}
	}
}

func TestOpenWhatIsNotThere(t *testing.T) {
	a := start(t)
	path := filepath.Join(t.TempDir(), "new.clampline")
	a.OpenPath(path)
	quiet(t, a)
	if parts, _, _ := a.editor.Document().Count(); parts != 0 || a.path != path || !a.editor.IsSaved() {
		t.Fatalf("got %d parts under %q, saved %t; want an empty sheet of that name", parts, a.path, a.editor.IsSaved())
	}
	change(t, a, "Grid")
	run(t, a, "save")
	quiet(t, a)
	if _, err := file.Load(path); err != nil {
		t.Error(err)
	}

	a.OpenPath(filepath.Join(t.TempDir(), "new.txt"))
	says(t, a, "There is no such file")
}

func TestDroppedFiles(t *testing.T) {
	path := saved(t, house(t), "house.clampline")
	other := storage.NewFileURI(filepath.Join(t.TempDir(), "picture.png"))
	a := start(t)
	a.openDropped([]fyne.URI{other})
	says(t, a, "None of the dropped files ends in .clampline")
	answer(t, a, "Close")
	a.openDropped([]fyne.URI{other, storage.NewFileURI(path)})
	quiet(t, a)
	if a.path != path {
		t.Errorf("opened %q, want %q", a.path, path)
	}
	change(t, a, "Mains")
	a.openDropped([]fyne.URI{storage.NewFileURI(path)})
	says(t, a, "changes that are not saved")
}

func TestDemos(t *testing.T) {
	for i, one := range assets.Demos() {
		t.Run(strings.Split(one.Title, ":")[0], func(t *testing.T) {
			a := start(t)
			run(t, a, "open demo")
			answer(t, a, one.Title)
			quiet(t, a)
			parts, _, _ := a.editor.Document().Count()
			want, _, _ := demo(t, i).Count()
			if parts != want || a.path != "" || !a.editor.IsSaved() || len(a.prefs.recent()) > 0 {
				t.Errorf("%d parts of %d under %q, saved %t", parts, want, a.path, a.editor.IsSaved())
			}
			if a.judgement.result == nil || !strings.Contains(a.status.verdicts.Text(), "buses and loads") {
				t.Errorf("it was not judged: %q", a.status.verdicts.Text())
			}
		})
	}
}

func TestSizeOfTheWindowIsKept(t *testing.T) {
	a := start(t)
	a.window.Resize(fyne.NewSize(1111, 777))
	size := a.window.Canvas().Size()
	a.close()
	if got := New(a.app, Options{Inline: true}).window.Canvas().Size(); got != size {
		t.Errorf("got %v, want %v", got, size)
	}
}

// What another sheet had must not show on a new one.
func TestNewSheetShowsNothingOfTheOld(t *testing.T) {
	a := start(t)
	a.workOn(demo(t, 0), "")
	a.judge.run = (&held{}).executor()
	a.replace(diagram.New(), "")
	if got := tabTexts(a); !slices.Contains(got, "Findings") {
		t.Errorf("the views are headed %q, want the findings without a number", got)
	}
	if got := a.status.verdicts.Text() + a.status.findings.Text(); got != "" {
		t.Errorf("the status line counts %q", got)
	}
}

// Whoever writes through the toolkit still can, from the first byte on.
func TestFileOfADialogCanBeWritten(t *testing.T) {
	start(t)
	path := filepath.Join(t.TempDir(), "a.txt")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	writer, err := storage.Writer(storage.NewFileURI(path))
	if err != nil {
		t.Fatal(err)
	}
	if text, _ := os.ReadFile(path); string(text) != "old" {
		t.Errorf("the file holds %q before anything was written", text)
	}
	for _, text := range []string{"new", "er"} {
		if _, err := writer.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := writer.Close(); err != nil {
		t.Fatal(err)
	}
	if text, _ := os.ReadFile(path); string(text) != "newer" {
		t.Errorf("the file holds %q, want what was written", text)
	}
}
