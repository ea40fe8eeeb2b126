package app

import (
	"clampline/diagram/file/filetest"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// A recent file that is gone is no reason to begin an empty sheet.
func TestOpenRecentThatIsGone(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	a.OpenPath(path)
	run(t, a, "new")
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	a.menu.recent.ChildMenu.Items[0].Action()
	says(t, a, "There is no such file")
	if a.path != "" || len(a.prefs.recent()) != 0 || a.menu.recent.ChildMenu.Items[0].Label != "none yet" {
		t.Errorf("open %q, recent %v, want nothing", a.path, a.prefs.recent())
	}
}

func TestRecentFiles(t *testing.T) {
	a := start(t)
	folder := t.TempDir()
	var paths []string
	for i := range 12 {
		path := filepath.Join(folder, fmt.Sprintf("sheet %d.clampline", i))
		if err := filetest.Save(path, house(t)); err != nil {
			t.Fatal(err)
		}
		a.OpenPath(path)
		paths = append(paths, path)
	}
	a.OpenPath(paths[5])
	want := []string{paths[5], paths[11], paths[10], paths[9], paths[8], paths[7], paths[6], paths[4], paths[3], paths[2]}
	if got := a.prefs.recent(); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	items := a.menu.recent.ChildMenu.Items
	if len(items) != mostRecent || items[1].Label != "sheet 11.clampline  ("+folder+")" {
		t.Fatalf("got %d in the menu, the second %q", len(items), items[1].Label)
	}
	items[1].Action()
	if a.path != paths[11] || a.prefs.recent()[0] != paths[11] {
		t.Errorf("opened %q, want %q", a.path, paths[11])
	}
	change(t, a, "Mains")
	a.menu.recent.ChildMenu.Items[1].Action()
	says(t, a, "changes that are not saved")
}

func TestForgetRecentFiles(t *testing.T) {
	a := start(t)
	a.OpenPath(saved(t, house(t), "house.clampline"))
	run(t, a, "settings")
	answer(t, a, "Forget the recent files")
	if got := a.menu.recent.ChildMenu.Items[0].Label; got != "none yet" || len(a.prefs.recent()) > 0 {
		t.Errorf("the menu lists %q, kept are %v", got, a.prefs.recent())
	}
}
