package file_test

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// No export takes the place of a sheet, under whatever name.
func TestExportsKeepOffSheets(t *testing.T) {
	folder := t.TempDir()
	sheet := filepath.Join(folder, "farm.clampline")
	if err := filetest.Save(sheet, entitled(t, "farm")); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(folder, "farm.svg")
	if err := os.Symlink(sheet, link); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	for _, path := range []string{sheet, link, filepath.Join(folder, "NEW.CLAMPLINE"), sheet + ".bak", sheet + ".bak2"} {
		for name, write := range map[string]func() error{
			"export":  func() error { return file.Export(path, text("no sheet")) },
			"library": func() error { return file.SaveLibrary(path, &file.Library{}) },
		} {
			if err := write(); err == nil || !strings.Contains(err.Error(), "name of a sheet") {
				t.Errorf("%s to %s: got %v", name, filepath.Base(path), err)
			}
		}
	}
	if got := titleOf(t, sheet); got != "farm" {
		t.Errorf("the sheet is %q", got)
	}
}

// A drawing that cannot be finished leaves the one of last week as it is, and says
// what went wrong.
func TestAnExportThatIsNotFinishedLeavesTheOldOne(t *testing.T) {
	path := filepath.Join(t.TempDir(), "drawing.svg")
	if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("no font has this letter")
	err := file.Export(path, func(w io.Writer) error {
		_, err := io.WriteString(w, "<svg>half of it")
		return errors.Join(err, broken)
	})
	if !errors.Is(err, broken) {
		t.Errorf("got %v, want %v", err, broken)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "old" {
		t.Errorf("the file holds %q (%v)", got, err)
	}
}
