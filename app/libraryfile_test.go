package app

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/library"
)

func TestImportAndExport(t *testing.T) {
	theirs := filepath.Join(t.TempDir(), "theirs.json")
	entry := func(id diagram.ID, name string) library.Entry {
		return library.Entry{Protector: diagram.Protector{ID: id, Name: name}, Own: true}
	}
	if err := file.SaveLibrary(theirs, &file.Library{Protectors: []diagram.Protector{entry("own-1", "Theirs").Protector, entry("quay-1", "Quay box").Protector}}); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name, reply string
		want        []string
	}{
		{"left out", "Leave them out", []string{"Mine", "Quay box"}},
		{"replaced", "Replace mine", []string{"Theirs", "Quay box"}},
		{"both", "Keep both", []string{"Mine", "Quay box", "Theirs"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			path := libraryPath(t)
			a := shelved(t, path)
			a.library.keep(diagram.Protector{Name: "Mine"}, false)
			a.library.importFrom(theirs)
			if text := wordsOf(asked(t, a)); !strings.Contains(text, "1 added") || !strings.Contains(text, "Theirs") {
				t.Errorf("it asks %q", text)
			}
			answer(t, a, row.reply)
			quiet(t, a)
			if got := namesIn(loaded(t, path)); !slices.Equal(got, row.want) {
				t.Errorf("got %q, want %q", got, row.want)
			}
			copied := filepath.Join(t.TempDir(), "copy")
			a.library.exportTo(copied)
			if got := namesIn(loaded(t, copied+".json")); !slices.Equal(got, row.want) {
				t.Errorf("the copy holds %q, want %q", got, row.want)
			}
			a.library.importFrom(copied + ".json")
			if text := a.noticed(); !strings.Contains(text, "0 added, ") || !strings.Contains(text, "were there already") {
				t.Errorf("its own again: it says %q", text)
			}
		})
	}
}

func namesIn(entries []library.Entry) []string {
	var out []string
	for _, e := range entries {
		out = append(out, e.Protector.Name)
	}
	return out
}

func TestImportOfWhatIsNone(t *testing.T) {
	path := libraryPath(t)
	a := shelved(t, path)
	sheet := saved(t, house(t), "house.clampline")
	for name, from := range map[string]string{"a sheet": sheet, "nothing": filepath.Join(t.TempDir(), "none.json")} {
		a.library.importFrom(from)
		if text := wordsOf(asked(t, a)); !strings.Contains(text, "Not imported") || !strings.Contains(text, filepath.Base(from)) {
			t.Errorf("%s: it says %q", name, text)
		}
		answer(t, a, "Close")
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("a file was written")
	}
}
