package file_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/disk"
	"clampline/diagram/disk/disktest"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

func entitled(t testing.TB, title string) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Title: title}) })
	return doc
}

// sealedText returns what a save writes.
func sealedText(t *testing.T, title string) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "x.clampline")
	if err := filetest.Save(path, entitled(t, title)); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// titleOf opens a sheet that must be whole.
func titleOf(t *testing.T, path string) string {
	t.Helper()
	opened, err := file.Open(path)
	if err != nil {
		return err.Error()
	}
	return opened.Document.Info().Title + opened.Warning
}

// everyFault runs the trial with a fault at each call in turn.
func everyFault(t *testing.T, trial func(*testing.T, *disktest.Faulty)) {
	for _, fault := range disktest.Faults() {
		t.Run(fault.Name, func(t *testing.T) {
			for at := 1; !t.Failed(); at++ {
				system := &disktest.Faulty{At: at, Fault: fault}
				if trial(t, system); system.Was == "" {
					if at < 10 {
						t.Errorf("only %d calls were made to fail", at-1)
					}
					return
				}
			}
		})
	}
}

func TestASaveThatFailsAnywhereLeavesAWholeSheet(t *testing.T) {
	zero, one := sealedText(t, "zero"), sealedText(t, "one")
	everyFault(t, func(t *testing.T, system *disktest.Faulty) {
		path := filepath.Join(t.TempDir(), "farm.clampline")
		if err := errors.Join(os.WriteFile(path, one, 0o644), os.WriteFile(path+".bak", zero, 0o644)); err != nil {
			t.Fatal(err)
		}
		out, err := file.Save(path, entitled(t, "two"), file.Saving{Disk: disk.Disk{System: system}, Backups: 3})
		got := titleOf(t, path)
		killed := system.Was != "" && system.Fault.Kill
		switch {
		case got != "one" && got != "two":
			t.Errorf("%s: the sheet is %q", system.Was, got)
		case !killed && (err == nil || errors.Is(err, disk.ErrUncertain)) != (got == "two"):
			t.Errorf("%s: got %v, and the sheet is %q", system.Was, err, got)
		case err == nil && len(out.Warnings) == 0 && titleOf(t, path+".bak") != "one":
			t.Errorf("%s: the backup is %q", system.Was, titleOf(t, path+".bak"))
		}
	})
}

// A recovery copy that fails anywhere leaves the one before to be offered, with
// the sheet that it is of.
func TestARecoveryCopyThatFailsAnywhereLeavesAWholeOne(t *testing.T) {
	everyFault(t, func(t *testing.T, system *disktest.Faulty) {
		keeping := file.Keeping{Folder: t.TempDir(), Sheet: "/sheets/farm.clampline", Generations: 3}
		keeping.Disk.System = &disktest.Faulty{}
		if err := keeping.Save(entitled(t, "one")); err != nil {
			t.Fatal(err)
		}
		keeping.Disk.System = system
		err := keeping.Save(entitled(t, "two"))
		got := recoveries(t, keeping.Folder)
		if len(got) != 1 || got[0].Original != "/sheets/farm.clampline" || got[0].Damaged > 0 {
			t.Fatalf("%s: got %+v", system.Was, got)
		}
		if title := titleOf(t, got[0].Readable); title != "two" && (title != "one" || err == nil) {
			t.Errorf("%s: got %v, and the copy is %q", system.Was, err, title)
		}
	})
}

func TestAnExportThatFailsAnywhereLeavesTheOldOne(t *testing.T) {
	everyFault(t, func(t *testing.T, system *disktest.Faulty) {
		path := filepath.Join(t.TempDir(), "drawing.svg")
		if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
			t.Fatal(err)
		}
		err := file.ExportOn(disk.Disk{System: system}, path, text("new"))
		got, failure := os.ReadFile(path)
		if failure != nil || string(got) != "new" && (string(got) != "old" || err == nil) {
			t.Errorf("%s: got %v, and the file holds %q", system.Was, err, got)
		}
	})
}

// The first copy of a sheet is there with the sheet that it is of, or not at all: one
// without would be offered as that of a sheet that was never saved.
func TestAFirstRecoveryCopyBelongsToItsSheet(t *testing.T) {
	everyFault(t, func(t *testing.T, system *disktest.Faulty) {
		keeping := file.Keeping{Folder: t.TempDir(), Sheet: "/sheets/farm.clampline", Generations: 3}
		keeping.Disk.System = system
		err := keeping.Save(entitled(t, "one"))
		got := recoveries(t, keeping.Folder)
		switch {
		case len(got) == 0 && err != nil:
		case len(got) != 1 || got[0].Original != "/sheets/farm.clampline" || titleOf(t, got[0].Readable) != "one":
			t.Errorf("%s: got %v, and %+v", system.Was, err, got)
		}
	})
}

// Where the folder of the copies cannot be made, the reason is told, and not that
// there is no such folder, which nobody asked for.
func TestFolderOfCopiesThatCannotBeMade(t *testing.T) {
	for _, row := range []struct {
		err  error
		want string
	}{
		{syscall.ENOSPC, "the disk is full"}, {syscall.EACCES, "you may not write there"},
	} {
		keeping := file.Keeping{Folder: filepath.Join(t.TempDir(), "copies"), Generations: 3}
		keeping.Disk.System = &disktest.Faulty{At: 1, Fault: disktest.Fault{Err: row.err}}
		err := keeping.Save(entitled(t, "farm"))
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("got %v, want that %s", err, row.want)
		}
	}
}
