package disk_test

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"clampline/diagram/disk"
)

func replace(t *testing.T, path, text string, o disk.Options) disk.Outcome {
	t.Helper()
	out, err := disk.Disk{}.Replace(path, o, writing(text))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestGenerations(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	for _, text := range []string{"a", "b", "b", "c", "d", "e"} { // twice the same is no other generation
		replace(t, path, text, disk.Options{Backups: 3})
	}
	var got []string
	for _, name := range append([]string{path}, disk.Disk{}.Backups(path)...) {
		got = append(got, text(name))
	}
	if !slices.Equal(got, []string{"e", "d", "c", "b"}) {
		t.Errorf("got %q", got)
	}
	replace(t, path, "f", disk.Options{Backups: 1})
	if got := (disk.Disk{}).Backups(path); !slices.Equal(got, []string{path + ".bak"}) {
		t.Errorf("with one generation: %q", got)
	}
}

// What another program wrote is not written over by who does not know of it.
func TestExpect(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	first := replace(t, path, one, disk.Options{}).Stamp
	put(t, path, "of another program")
	_, err := disk.Disk{}.Replace(path, disk.Options{Backups: 1, Expect: &first}, writing(two))
	if !errors.Is(err, disk.ErrChanged) || text(path) != "of another program" {
		t.Errorf("got %v, and the file holds %q", err, text(path))
	}
	if _, err = (disk.Disk{}).Replace(path, disk.Options{Expect: &disk.Stamp{}}, writing(two)); !errors.Is(err, disk.ErrChanged) {
		t.Errorf("a file where none was expected: %v", err)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	replace(t, path, two, disk.Options{Expect: &first}) // one that is gone is made anew
	second, err := disk.Disk{}.Stamp(path)
	if err != nil {
		t.Fatal(err)
	}
	if replaced := replace(t, path, two, disk.Options{Expect: &second}).Stamp; !replaced.Same(second) || !(disk.Disk{}).Unchanged(path, replaced) {
		t.Errorf("got the stamp %+v, want one like %+v", replaced, second)
	}
}

func TestBackupThatCannotBeMadeIsSaidAndTheFileIsWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	if err := os.Mkdir(path+".bak", 0o755); err != nil {
		t.Fatal(err)
	}
	out := replace(t, path, two, disk.Options{Backups: 2})
	if len(out.Warnings) != 1 || !strings.Contains(out.Warnings[0].Error(), "no backup could be made") || text(path) != two {
		t.Errorf("got %v, and the file holds %q", out.Warnings, text(path))
	}
}

func TestReadOnlyIsAskedFirst(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	if _, err := (disk.Disk{}).Replace(path, disk.Options{}, writing(two)); !errors.Is(err, disk.ErrReadOnly) || text(path) != one {
		t.Errorf("got %v", err)
	}
	replace(t, path, two, disk.Options{EvenReadOnly: true})
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o444 && runtime.GOOS != "windows" {
		t.Errorf("it is not read-only any more: %v, %v", info.Mode(), err)
	}
}

// endedProcess returns the number of a process that has ended.
func endedProcess(t *testing.T) int {
	t.Helper()
	c := exec.Command(os.Args[0], "-test.run=^$")
	if err := c.Run(); err != nil {
		t.Fatal(err)
	}
	return c.Process.Pid
}

func TestLeftOverFilesGo(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "x")
	system := &recording{}
	if _, err := (disk.Disk{System: system}).Replace(path, disk.Options{}, writing(one)); err != nil {
		t.Fatal(err)
	}
	own := filepath.Base(system.made) // as a write of this very run would be named
	parts := strings.Split(own, "-")
	ended := strings.Replace(own, "-"+parts[2]+"-", "-"+strconv.Itoa(endedProcess(t))+"-", 1)
	before := strings.Replace(own, "-"+parts[3]+"-", "-another-", 1)
	elsewhere := strings.Replace(own, "-"+parts[1]+"-", "-elsewhere-", 1)
	for _, name := range []string{own, ended, before, elsewhere, ".clampline-old.tmp", ".clampline-0123456789abcdef.lock", "letter.tmp"} {
		put(t, filepath.Join(folder, name), "")
	}
	if err := os.Chtimes(filepath.Join(folder, ".clampline-old.tmp"), time.Time{}, time.Now().Add(-2*time.Hour)); err != nil {
		t.Fatal(err)
	}
	replace(t, path, two, disk.Options{})
	var got []string
	entries, _ := os.ReadDir(folder)
	for _, entry := range entries {
		got = append(got, entry.Name())
	}
	want := []string{own, elsewhere, "letter.tmp", "x"}
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// recording notes the last file that was made.
type recording struct {
	disk.Real
	made string
}

func (r *recording) OpenFile(name string, flag int, mode fs.FileMode) (disk.File, error) {
	if flag&os.O_CREATE != 0 {
		r.made = name
	}
	return r.Real.OpenFile(name, flag, mode)
}

func TestLock(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "x")
	first, err := disk.TryLock(path)
	if err != nil {
		t.Fatal(err)
	}
	var held *disk.HeldError
	if _, err := disk.TryLock(path); !errors.As(err, &held) || runtime.GOOS != "windows" && held.Holder.Process != os.Getpid() {
		t.Errorf("the second: got %v", err)
	}
	disk.Disk{}.Clean(folder)
	if _, err := disk.TryLock(path); err == nil {
		t.Error("the lock was cleaned away while it was held")
	}
	first.Release()
	first.Release()
	second, err := disk.TryLock(path)
	if err != nil {
		t.Errorf("after it was released: %v", err)
	}
	second.Release()
	if left, _ := os.ReadDir(folder); len(left) > 0 {
		t.Errorf("left: %v", left)
	}
	other, err := disk.TryLock(filepath.Join(folder, "none", "x"))
	if err != nil {
		t.Errorf("where nothing can be locked: %v", err)
	}
	other.Release()
}

// A program that was killed leaves nothing locked.
func TestLockOfAKilledProgram(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	c := exec.Command(os.Args[0], "-test.run=^TestHoldLock$")
	c.Env = append(os.Environ(), "CLAMPLINE_TEST_LOCK="+path)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	if n, err := out.Read(make([]byte, 4)); n == 0 {
		t.Fatal(err)
	}
	if _, err := disk.TryLock(path); err == nil {
		t.Error("two programs have the lock")
	}
	if err := c.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = c.Wait()
	lock, err := disk.TryLock(path)
	if err != nil {
		t.Errorf("after the other was killed: %v", err)
	}
	lock.Release()
}

// TestHoldLock is the other program.
func TestHoldLock(t *testing.T) {
	path := os.Getenv("CLAMPLINE_TEST_LOCK")
	if path == "" {
		t.Skip("it is run by another test")
	}
	lock, err := disk.TryLock(path)
	if err != nil {
		t.Fatal(err)
	}
	defer lock.Release()
	os.Stdout.WriteString("held\n")
	time.Sleep(time.Minute)
}
