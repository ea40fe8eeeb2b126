package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/file"
)

// A file that cannot be read is told with its place, and is never written.
func TestBrokenLibraryStays(t *testing.T) {
	path := libraryPath(t)
	const broken = `{"format": "clampline library", "version": 1, "protectors": [{"id": "own-1", "in": "much"}]}`
	write := func(text string) {
		t.Helper()
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(broken)
	a := shelved(t, path)
	if text := a.library.text(); !strings.Contains(text, "Your own protectors cannot be read.") || !strings.Contains(text, "line 1") || !strings.Contains(text, filepath.Base(path)) {
		t.Errorf("it says %q", text)
	}
	a.library.keep(diagram.Protector{Name: "New"}, false)
	answer(t, a, "Close")
	if text, err := os.ReadFile(path); err != nil || string(text) != broken {
		t.Errorf("the file holds %q, %v", text, err)
	}
	write(strings.Replace(broken, `"much"`, "20000", 1))
	pressed(t, a, "Read it again")
	if text := a.library.text(); strings.Contains(text, "cannot be read") || !strings.Contains(text, "mine") {
		t.Errorf("mended, it says %q", text)
	}
}

// What another window has kept meanwhile stays.
func TestTwoWindowsShareTheLibrary(t *testing.T) {
	path := libraryPath(t)
	one, other := &ownLibrary{path: path}, &ownLibrary{path: path}
	one.load()
	other.load()
	for _, o := range []*ownLibrary{one, other, one} {
		if _, err := o.add(diagram.Protector{Name: "x"}); err != nil {
			t.Fatal(err)
		}
	}
	if got := len(loaded(t, path)); got != 3 {
		t.Errorf("the file holds %d, want 3", got)
	}
	if err := other.remove("own-1"); err != nil {
		t.Fatal(err)
	}
	if err := one.alter("own-1", func(p *diagram.Protector) { p.Name = "y" }); err == nil || !strings.Contains(err.Error(), "another window has removed it") {
		t.Errorf("got %v", err)
	}
}

func TestNoPlaceForALibrary(t *testing.T) {
	a := shelved(t, "")
	a.library.keep(diagram.Protector{Name: "x"}, false)
	if text := wordsOf(asked(t, a)); !strings.Contains(text, "There is no folder for the settings") {
		t.Errorf("it says %q", text)
	}
}

// A library that is not as it was saved is taken, and that is said.
func TestLibraryThatIsNotAsItWasSaved(t *testing.T) {
	a := start(t)
	path := filepath.Join(t.TempDir(), "protectors.json")
	if err := file.SaveLibrary(path, &file.Library{Protectors: []diagram.Protector{{ID: "own-1", Name: "Mine", In: 20000}}}); err != nil {
		t.Fatal(err)
	}
	quiet(t, New(a.app, Options{Inline: true, Library: path}))
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(text), "20000", "21000", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	again := New(a.app, Options{Inline: true, Library: path})
	says(t, again, "its checksum does not fit")
	answer(t, again, "Close")
	if got := len(again.library.own.entries()); got != 1 {
		t.Errorf("%d entries", got)
	}
}
