package file_test

import (
	"crypto/sha256"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram/diagramtest"
	"clampline/diagram/disk"
	"clampline/diagram/file"
)

func TestRecoveryPathIsStable(t *testing.T) {
	folder := t.TempDir()
	path := func(sheet string) string { return file.RecoveryPath(folder, sheet) }
	a := path("/sheets/a.clampline")
	if a != path("/sheets/a.clampline") || a != path("/sheets/../sheets/a.clampline") {
		t.Error("two names for one sheet")
	}
	if a == path("/sheets/b.clampline") || a == path("") {
		t.Error("one name for two sheets")
	}
	if path("a.clampline") == path("") || filepath.Dir(a) != folder || filepath.Ext(a) != file.Extension {
		t.Errorf("got %s, want a sheet in %s", a, folder)
	}
}

func TestRecoveriesComeBack(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "new", "folder")
	if got, err := file.Recoveries(folder); len(got) != 0 || err != nil {
		t.Fatalf("got %v, %v from a folder that is not there, want nothing", got, err)
	}
	doc := diagramtest.Random(diagramtest.Rand(5), 9)
	sheetPath, err := filepath.Abs("farm.clampline")
	if err != nil {
		t.Fatal(err)
	}
	start := time.Now().Add(-time.Minute)
	for _, sheet := range []string{"farm.clampline", "", "farm.clampline"} {
		if err := (file.Keeping{Folder: folder, Sheet: sheet, Generations: file.UsualGenerations}).Save(doc); err != nil {
			t.Fatal(err)
		}
	}
	ageBy(t, file.RecoveryPath(folder, ""), time.Hour)
	got := recoveries(t, folder)
	if len(got) != 2 {
		t.Fatalf("got %d recoveries, want 2: %+v", len(got), got)
	}
	if got[0].Original != sheetPath || got[1].Original != "" {
		t.Errorf("got originals %q and %q, want %q, the newer, and none", got[0].Original, got[1].Original, sheetPath)
	}
	if got[0].Path != file.RecoveryPath(folder, "farm.clampline") || got[0].Time.Before(start) || got[0].Err != nil {
		t.Errorf("got %+v", got[0])
	}
	again, err := file.Load(got[0].Path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(contents(doc), contents(again)); diff != "" {
		t.Errorf("the copy differs (-want +got):\n%s", diff)
	}
	for _, r := range got {
		for range 2 { // the second time it is gone already
			if err := file.RemoveRecovery(r.Path); err != nil {
				t.Error(err)
			}
		}
	}
	if left, err := os.ReadDir(folder); len(left) != 0 || err != nil {
		t.Errorf("got %v left (%v), want nothing", left, err)
	}
}

func recoveries(t *testing.T, folder string) []file.Recovery {
	t.Helper()
	got, err := file.Recoveries(folder)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func ageBy(t *testing.T, path string, by time.Duration) {
	t.Helper()
	if err := os.Chtimes(path, time.Time{}, time.Now().Add(-by)); err != nil {
		t.Fatal(err)
	}
}

func TestABrokenRecoveryIsListedAndLeft(t *testing.T) {
	folder := t.TempDir()
	if err := (file.Keeping{Folder: folder, Sheet: "/sheets/farm.clampline", Generations: file.UsualGenerations}).Save(diagramtest.Building(5)); err != nil {
		t.Fatal(err)
	}
	path := file.RecoveryPath(folder, "/sheets/farm.clampline")
	if err := os.Truncate(path, 100); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "letter.txt"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	got := recoveries(t, folder)
	if len(got) != 1 || got[0].Err == nil || got[0].Original == "" {
		t.Fatalf("got %+v, want one with an error and its original", got)
	}
	if _, err := os.Stat(path); err != nil {
		t.Errorf("the broken copy is gone: %v", err)
	}
}

func TestARecoveryWithoutItsNoteIsListed(t *testing.T) {
	folder := t.TempDir()
	if err := (file.Keeping{Folder: folder, Sheet: "/sheets/farm.clampline", Generations: file.UsualGenerations}).Save(diagramtest.Building(5)); err != nil {
		t.Fatal(err)
	}
	path := file.RecoveryPath(folder, "/sheets/farm.clampline")
	if err := os.WriteFile(path+".json", []byte("{"), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := recoveries(t, folder); len(got) != 1 || got[0].Err != nil || got[0].Original != "" {
		t.Errorf("got %+v, want one that can be read, of an unknown original", got)
	}
}

// A damaged copy falls back to the one before it.
func TestADamagedRecoveryFallsBack(t *testing.T) {
	keeping := file.Keeping{Folder: t.TempDir(), Sheet: "/sheets/farm.clampline", Generations: 3}
	for _, title := range []string{"a", "b", "c", "d"} {
		if err := keeping.Save(entitled(t, title)); err != nil {
			t.Fatal(err)
		}
	}
	newest := file.RecoveryPath(keeping.Folder, keeping.Sheet)
	for i, want := range []string{"d", "c", "b"} {
		got := recoveries(t, keeping.Folder)
		if len(got) != 1 || got[0].Err != nil || got[0].Damaged != i {
			t.Fatalf("with %d damaged: got %+v", i, got)
		}
		if title := titleOf(t, got[0].Readable); title != want {
			t.Errorf("with %d damaged: got %q, want %q", i, title, want)
		}
		damage(t, got[0].Readable, want)
	}
	got := recoveries(t, keeping.Folder)[0]
	if got.Damaged != 3 || got.Err != nil || got.Readable != newest {
		t.Errorf("with all changed: got %+v, want the newest with what can be read", got)
	}
	if err := os.Truncate(newest, 40); err != nil {
		t.Fatal(err)
	}
	if got := recoveries(t, keeping.Folder)[0]; got.Readable != newest+".bak" {
		t.Errorf("got %+v", got)
	}
}

// damage changes the title of a copy behind the back of its checksum.
func damage(t *testing.T, path, title string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.Replace(string(text), `"title": "`+title, `"title": "?`, 1)
	if err := os.WriteFile(path, []byte(changed), 0o600); err != nil || changed == string(text) {
		t.Fatal(err)
	}
}

// Nothing is said of a recovery copy that a person cannot do.
func TestWordsOfADamagedRecovery(t *testing.T) {
	folder := t.TempDir()
	if err := (file.Keeping{Folder: folder, Sheet: "", Generations: file.UsualGenerations}).Save(entitled(t, "a")); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(file.RecoveryPath(folder, ""), 60); err != nil {
		t.Fatal(err)
	}
	err := recoveries(t, folder)[0].Err
	if err == nil || !strings.Contains(err.Error(), "the copy is damaged") || strings.Contains(err.Error(), "copy it again") {
		t.Errorf("got %v", err)
	}
}

// A copy says which file its changes were made to, so that a sheet that was saved
// since by someone else is not written over: that of a hash, none that stood there, or
// one that nobody knows, as where the note was damaged.
func TestRecoveryKnowsWhatItWasMadeTo(t *testing.T) {
	saved := disk.Stamp{Exists: true, Sum: sha256.Sum256([]byte("as it was"))}
	for name, base := range map[string]*disk.Stamp{"a file": &saved, "none there": {}, "not known": nil} {
		keeping := file.Keeping{Folder: t.TempDir(), Sheet: "/sheets/farm.clampline", Base: base, Generations: 1}
		if err := keeping.Save(entitled(t, "farm")); err != nil {
			t.Fatal(err)
		}
		got := recoveries(t, keeping.Folder)
		if diff := cmp.Diff(base, got[0].Base); diff != "" {
			t.Errorf("%s: -want +got:\n%s", name, diff)
		}
	}
	for _, damaged := range []string{"", "no", "zz", strings.Repeat("a", 62), strings.Repeat("a", 66)} {
		folder := t.TempDir()
		if err := (file.Keeping{Folder: folder, Sheet: "/sheets/farm.clampline", Generations: file.UsualGenerations}).Save(entitled(t, "farm")); err != nil {
			t.Fatal(err)
		}
		note := `{"original": "/sheets/farm.clampline", "base": "` + damaged + `"}`
		if err := os.WriteFile(file.RecoveryPath(folder, "/sheets/farm.clampline")+".json", []byte(note), 0o600); err != nil {
			t.Fatal(err)
		}
		if got := recoveries(t, folder)[0]; got.Base != nil || got.Original != "/sheets/farm.clampline" {
			t.Errorf("base %q: got %+v of %s", damaged, got.Base, got.Original)
		}
	}
}
