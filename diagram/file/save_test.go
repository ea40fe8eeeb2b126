package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/disk"
)

func titled(t *testing.T, title string) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Title: title}) })
	return doc
}

func wantTitle(t *testing.T, path, want string) {
	t.Helper()
	doc, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	if got := doc.Info().Title; got != want {
		t.Errorf("%s: got title %q, want %q", filepath.Base(path), got, want)
	}
}

func wantFiles(t *testing.T, folder string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, entry := range entries {
		got = append(got, entry.Name())
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got files %v, want %v", got, want)
	}
}

func TestSaveKeepsThePreviousFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "farm.clampline")
	for i, title := range []string{"one", "two", "three"} {
		if err := saveUsual(path, titled(t, title)); err != nil {
			t.Fatal(err)
		}
		wantTitle(t, path, title)
		if i == 0 {
			wantFiles(t, folder, "farm.clampline")
			continue
		}
		wantFiles(t, folder, []string{"farm.clampline", "farm.clampline.bak", "farm.clampline.bak2"}[:i+1]...)
		wantTitle(t, path+BackupExtension, []string{"one", "two"}[i-1])
	}
}

func TestSaveAfterAWriteThatStoppedAtTheLastRename(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "farm.clampline")
	if err := saveUsual(path, titled(t, "one")); err != nil {
		t.Fatal(err)
	}
	// The machine stopped when the backup was a second name of the file.
	if err := os.Link(path, path+BackupExtension); err != nil {
		t.Skipf("no hard links here: %v", err)
	}
	if err := saveUsual(path, titled(t, "two")); err != nil {
		t.Fatal(err)
	}
	wantFiles(t, folder, "farm.clampline", "farm.clampline.bak", "farm.clampline.bak2")
	wantTitle(t, path, "two")
	wantTitle(t, path+BackupExtension, "one")
}

func TestAFailedWriteLeavesTheOldFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "farm.clampline")
	for _, title := range []string{"one", "two"} {
		if err := saveUsual(path, titled(t, title)); err != nil {
			t.Fatal(err)
		}
	}
	full := fmt.Errorf("write: %w", syscall.ENOSPC)
	_, err := disk.Disk{}.Replace(path, disk.Options{Backups: 1}, func(w io.Writer) error {
		_, _ = w.Write([]byte(`{"format":`))
		return full
	})
	if !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("got %v, want that the disk is full", err)
	}
	wantFiles(t, folder, "farm.clampline", "farm.clampline.bak")
	wantTitle(t, path, "two")
	wantTitle(t, path+BackupExtension, "one")
}

func TestAFailedBackupIsSaidAndTheSheetIsSaved(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "farm.clampline")
	if err := saveUsual(path, titled(t, "one")); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Join(path+BackupExtension, "x"), 0o755); err != nil {
		t.Fatal(err)
	}
	out, err := Save(path, titled(t, "two"), Saving{Backups: 3})
	if err != nil || len(out.Warnings) != 1 || !strings.Contains(out.Warnings[0].Error(), "no backup could be made") {
		t.Errorf("got %v, %v, want that no backup could be made", out.Warnings, err)
	}
	wantFiles(t, folder, "farm.clampline", "farm.clampline.bak")
	wantTitle(t, path, "two")
}

// TestTheFileIsCompleteAtEveryMoment opens the file again and again while it
// is being saved.
func TestTheFileIsCompleteAtEveryMoment(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("an open file cannot be replaced there")
	}
	path := filepath.Join(t.TempDir(), "farm.clampline")
	if err := saveUsual(path, titled(t, "0")); err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() {
		var err error
		for i := 0; i < 60 && err == nil; i++ {
			err = saveUsual(path, diagram.New())
		}
		done <- err
	}()
	for {
		if _, err := Load(path); err != nil {
			t.Error(err)
		}
		select {
		case err := <-done:
			if err != nil {
				t.Error(err)
			}
			return
		default:
		}
	}
}

func TestSaveKeepsPermissions(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are of another sort there")
	}
	path := filepath.Join(t.TempDir(), "farm.clampline")
	if err := saveUsual(path, titled(t, "one")); err != nil {
		t.Fatal(err)
	}
	for _, mode := range []fs.FileMode{0o600, 0o666, 0o640} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		if err := saveUsual(path, titled(t, "two")); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if info.Mode().Perm() != mode {
			t.Errorf("got permissions %v, want %v", info.Mode().Perm(), mode)
		}
	}
}

func TestSaveFollowsLinks(t *testing.T) {
	for _, name := range []string{"to a file", "to a file not there yet"} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			target := filepath.Join(folder, "shared", "farm.clampline")
			if err := os.Mkdir(filepath.Dir(target), 0o755); err != nil {
				t.Fatal(err)
			}
			links := []string{filepath.Join(folder, "a.clampline"), filepath.Join(folder, "b.clampline")}
			for link, to := range map[string]string{links[0]: "b.clampline", links[1]: filepath.Join("shared", "farm.clampline")} {
				if err := os.Symlink(to, link); err != nil {
					t.Skipf("no symbolic links here: %v", err)
				}
			}
			if name == "to a file" {
				if err := saveUsual(target, titled(t, "one")); err != nil {
					t.Fatal(err)
				}
			}
			if err := saveUsual(links[0], titled(t, "two")); err != nil {
				t.Fatal(err)
			}
			wantTitle(t, target, "two")
			wantFiles(t, folder, "a.clampline", "b.clampline", "shared")
			for _, link := range links {
				if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
					t.Errorf("%s is no link any more (%v)", filepath.Base(link), err)
				}
			}
		})
	}
}

func TestSaveSaysWhyItCannot(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "plain"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	tests := []struct{ name, path, want string }{
		{"no folder", filepath.Join(folder, "none", "farm.clampline"), "there is no such folder; make it, or choose another"},
		{"a folder", folder, "it is no ordinary file; choose another name"},
		{"name too long", filepath.Join(folder, strings.Repeat("x", 300)), "choose a shorter one"},
		{"file as a folder", filepath.Join(folder, "plain", "farm.clampline"), "save " + filepath.Join(folder, "plain")},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if test.name == "name too long" && runtime.GOOS == "windows" {
				t.Skip("the system has no error of its own for it")
			}
			err := saveUsual(test.path, diagram.New())
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want %q in it", err, test.want)
			}
		})
	}
	wantFiles(t, folder, "plain")
}

func TestLoadSaysWhyItCannot(t *testing.T) {
	folder := t.TempDir()
	large := filepath.Join(folder, "large")
	if err := os.WriteFile(large, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(large, maxSize+1); err != nil {
		t.Fatal(err)
	}
	tests := []struct{ name, path, want string }{
		{"no file", filepath.Join(folder, "none"), "there is no such file"},
		{"a folder", folder, "it is a folder; choose a file in it"},
		{"too large", large, "larger than 32 MiB"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := Load(test.path)
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.Contains(err.Error(), test.path) {
				t.Errorf("got %v, want %q and the path in it", err, test.want)
			}
		})
	}
}

func TestErrorsOfTheSystemInPlainWords(t *testing.T) {
	wrap := func(err error) error { return &fs.PathError{Op: "write", Path: "x", Err: err} }
	tests := []struct {
		name, doing string
		err         error
		want        string
	}{
		{"disk full", "save", wrap(syscall.ENOSPC), "the disk is full"},
		{"read-only disk", "save", wrap(syscall.EROFS), "the disk is read-only"},
		{"read-only folder", "save", wrap(syscall.EACCES), "you may not write there"},
		{"not to be read", "open", wrap(syscall.EACCES), "you may not read it"},
		{"anything else", "save", wrap(syscall.EIO), syscall.EIO.Error()},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := disk.Explain(test.doing, "farm.clampline", test.err)
			if !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), test.doing+" farm.clampline: ") {
				t.Errorf("got %v, want %q in it", err, test.want)
			}
			if !errors.Is(err, test.err) {
				t.Errorf("%v does not wrap its cause", err)
			}
		})
	}
}

func TestSaveRefusesExtraThatIsNoObjectBeforeItWrites(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "farm.clampline")
	if err := saveUsual(path, titled(t, "one")); err != nil {
		t.Fatal(err)
	}
	doc := diagram.New()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Extra: "["}) })
	if err := saveUsual(path, doc); err == nil {
		t.Error("a document with a broken extra was saved")
	}
	wantFiles(t, folder, "farm.clampline")
	wantTitle(t, path, "one")
}

// A broken file points to its backup where there is one, and to none else.
func TestLoadNamesTheBackup(t *testing.T) {
	path := filepath.Join(t.TempDir(), "barn.clampline")
	if err := os.WriteFile(path, []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(path); err == nil || strings.Contains(err.Error(), "kept as") {
		t.Errorf("without a backup: got %v", err)
	}
	if err := os.WriteFile(path+BackupExtension, []byte("{}"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(path); err == nil || !strings.Contains(err.Error(), "kept as barn.clampline.bak") {
		t.Errorf("with a backup: got %v", err)
	}
}

// saveUsual saves a sheet as the window usually does.
func saveUsual(path string, doc *diagram.Document) error {
	_, err := Save(path, doc, Saving{Backups: UsualBackups})
	return err
}
