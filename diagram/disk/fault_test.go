package disk_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"clampline/diagram/disk"
	"clampline/diagram/disk/disktest"
)

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o640); err != nil {
		t.Fatal(err)
	}
}

func text(path string) string {
	out, err := os.ReadFile(path)
	if err != nil {
		return "nothing"
	}
	return string(out)
}

func writing(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

// names lists the folder without temporary files.
func names(t *testing.T, folder string) (kept []string, temporary int) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		if disktest.Temporary(entry.Name()) {
			temporary++
			continue
		}
		kept = append(kept, entry.Name())
	}
	return kept, temporary
}

const (
	zero, one, two = "zero, the oldest text", "one, the text before", "two, the text after"
)

// TestEveryCallFails lets each call of a write fail in turn, in every way. The
// old file or the new is whole, and which of the two it is, is what Replace says.
func TestEveryCallFails(t *testing.T) {
	for _, fault := range disktest.Faults() {
		t.Run(fault.Name, func(t *testing.T) {
			calls := 0
			for at := 1; ; at++ {
				system := &disktest.Faulty{At: at, Fault: fault}
				failAt(t, system)
				if t.Failed() || system.Was == "" {
					break
				}
				calls++
			}
			if calls < 20 {
				t.Errorf("only %d calls were made to fail", calls)
			}
		})
	}
}

func failAt(t *testing.T, system *disktest.Faulty) {
	t.Helper()
	folder := t.TempDir()
	path := filepath.Join(folder, "x")
	put(t, path, one)
	put(t, disk.BackupPath(path, 1), zero)
	d := disk.Disk{}
	expected, err := d.Stamp(path)
	if err != nil {
		t.Fatal(err)
	}
	out, err := disk.Disk{System: system}.Replace(path, disk.Options{Backups: 2, Expect: &expected}, writing(two))
	at := fmt.Sprintf("call %d, %s: ", system.At, system.Was)
	got := text(path)
	killed := system.Was != "" && system.Fault.Kill
	switch {
	case got != one && got != two:
		t.Errorf("%sthe file holds %q", at, got)
	case killed:
	case (err == nil || errors.Is(err, disk.ErrUncertain)) != (got == two):
		t.Errorf("%sgot %v, and the file holds %q", at, err, got)
	case err == nil && len(out.Warnings) == 0 && text(disk.BackupPath(path, 1)) != one:
		t.Errorf("%sthe backup holds %q, and nothing was said", at, text(disk.BackupPath(path, 1)))
	}
	if old := text(disk.BackupPath(path, 1)) + text(disk.BackupPath(path, 2)); !strings.Contains(old, zero) {
		t.Errorf("%sthe oldest text is gone: %q", at, old)
	}
	if _, left := names(t, folder); left > 0 && !killed && !strings.HasPrefix(system.Was, "remove") {
		t.Errorf("%s%d temporary files are left", at, left)
	}
	next := disk.Disk{System: &disktest.Faulty{}}
	if _, err := next.Replace(path, disk.Options{Backups: 2}, writing("three")); err != nil || text(path) != "three" {
		t.Errorf("%sthe next write: %v, %q", at, err, text(path))
	}
}

// A new file is on the disk before it takes its place, and its place is on the
// disk before Replace returns.
func TestOrderOfCalls(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	system := &disktest.Faulty{}
	if _, err := (disk.Disk{System: system}).Replace(path, disk.Options{Backups: 1}, writing(two)); err != nil {
		t.Fatal(err)
	}
	placed := slices.IndexFunc(system.Calls, func(c string) bool { return strings.HasPrefix(c, "rename") && strings.HasSuffix(c, " x") })
	if placed < 0 {
		t.Fatalf("no rename in %q", system.Calls)
	}
	for i, call := range system.Calls {
		if from, ok := strings.CutPrefix(call, "rename "); ok {
			name, _, _ := strings.Cut(from, " ")
			if at := slices.Index(system.Calls, "sync "+name); at < 0 || at > i {
				t.Errorf("%s before it is on the disk: %q", call, system.Calls)
			}
		}
	}
	if !slices.Contains(system.Calls[placed:], "sync "+filepath.Base(filepath.Dir(path))) {
		t.Errorf("the folder is not brought to the disk: %q", system.Calls)
	}
}
