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
	"syscall"
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

// Up to 99 generations are kept and found, and all that are too many go.
func TestMostGenerations(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	for generation := 1; generation <= 99; generation++ {
		put(t, disk.BackupPath(path, generation), zero)
	}
	if got := (disk.Disk{}).Backups(path); len(got) != 99 || got[98] != path+".bak99" {
		t.Errorf("got %d generations", len(got))
	}
	replace(t, path, two, disk.Options{Backups: 98})
	if got := (disk.Disk{}).Backups(path); len(got) != 98 || text(got[0]) != one {
		t.Errorf("of 98 that are kept: got %d", len(got))
	}
}

// What is not there is as it was where nothing was.
func TestUnchangedOfNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	none, err := disk.Disk{}.Stamp(path)
	if err != nil || none != (disk.Stamp{}) || !(disk.Disk{}).Unchanged(path, none) {
		t.Errorf("got %+v, %v", none, err)
	}
	some := replace(t, path, one, disk.Options{}).Stamp
	if (disk.Disk{}).Unchanged(path, none) || !(disk.Disk{}).Unchanged(path, some) {
		t.Error("a new file counts as nothing, or as changed")
	}
	if err := os.Remove(path); err != nil || (disk.Disk{}).Unchanged(path, some) {
		t.Errorf("one that is gone counts as unchanged: %v", err)
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

// Another program that writes while the backup is made is noticed, too.
func TestExpectWhileTheBackupIsMade(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	first := replace(t, path, one, disk.Options{}).Stamp
	system := &meddling{path: path}
	_, err := disk.Disk{System: system}.Replace(path, disk.Options{Backups: 1, Expect: &first}, writing(two))
	if !errors.Is(err, disk.ErrChanged) || text(path) != "of another program" || text(path+".bak") != one {
		t.Errorf("got %v, the file holds %q, its backup %q", err, text(path), text(path+".bak"))
	}
}

// meddling is a system on which another program writes the file when its backup has
// just been made.
type meddling struct {
	disk.Real
	path string
}

func (m *meddling) Rename(from, to string) error {
	err := m.Real.Rename(from, to)
	if to == m.path+".bak" {
		err = errors.Join(err, os.WriteFile(m.path, []byte("of another program"), 0o600))
	}
	return err
}

// What takes the place of a file between the look at it and its opening is refused.
func TestOpenLooksAtWhatItOpened(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "x")
	put(t, path, one)
	f, err := disk.Disk{System: swapping{path: path}}.Open(folder)
	if err == nil || !strings.Contains(err.Error(), "a folder") || f != nil {
		t.Errorf("got %v, %v", f, err)
	}
}

// swapping is a system on which everything looks like one file.
type swapping struct {
	disk.Real
	path string
}

func (s swapping) Stat(string) (fs.FileInfo, error) { return os.Stat(s.path) }

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
	for _, mode := range []fs.FileMode{0o555, 0o444} {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		if _, err := (disk.Disk{}).Replace(path, disk.Options{}, writing(two)); !errors.Is(err, disk.ErrReadOnly) || text(path) != one {
			t.Errorf("%o: got %v", mode, err)
		}
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
	for _, name := range []string{".clampline-old.tmp", "letter.tmp"} { // of which one is not ours
		if err := os.Chtimes(filepath.Join(folder, name), time.Time{}, time.Now().Add(-2*time.Hour)); err != nil {
			t.Fatal(err)
		}
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

// syncing is a system on which bringing a folder to the disk comes to an error.
type syncing struct {
	disk.Real
	comes error
}

func (s syncing) OpenFile(name string, flag int, mode fs.FileMode) (disk.File, error) {
	f, err := s.Real.OpenFile(name, flag, mode)
	if info, looked := os.Stat(name); err == nil && looked == nil && info.IsDir() {
		return folderThat{f, s.comes}, nil
	}
	return f, err
}

type folderThat struct {
	disk.File
	comes error
}

func (f folderThat) Sync() error { return f.comes }

// A folder that the disk does not confirm is told, and the new file stands; where the
// system cannot bring a folder to the disk at all there is nothing to tell.
func TestFolderThatIsNotConfirmed(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there, folders are not brought to the disk")
	}
	for cause, told := range map[error]bool{syscall.EIO: true, syscall.EINVAL: false, errors.ErrUnsupported: false} {
		path := filepath.Join(t.TempDir(), "x")
		put(t, path, one)
		out, err := disk.Disk{System: syncing{comes: cause}}.Replace(path, disk.Options{}, writing(two))
		if errors.Is(err, disk.ErrUncertain) != told || errors.Is(err, cause) != told || text(path) != two || !out.Stamp.Exists {
			t.Errorf("%v: got %v, and the file holds %q", cause, err, text(path))
		}
	}
}

// stuck is a system on which nothing gets another name.
type stuck struct{ disk.Real }

func (stuck) Rename(string, string) error { return syscall.EBUSY }

// A read-only file that could not be replaced is read-only still.
func TestReadOnlyStaysSoWhereItIsNotReplaced(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	_, err := disk.Disk{System: stuck{}}.Replace(path, disk.Options{EvenReadOnly: true}, writing(two))
	if info, looked := os.Stat(path); err == nil || looked != nil || info.Mode().Perm() != 0o444 && runtime.GOOS != "windows" || text(path) != one {
		t.Errorf("got %v, and the file is %v", err, info.Mode())
	}
}

// A folder that is made is nobody else's to look into.
func TestMakeFolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a", "b")
	if err := (disk.Disk{}).MakeFolder(path); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o700 && runtime.GOOS != "windows" {
		t.Errorf("got %v, %v", info.Mode(), err)
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
	began := time.Now()
	if _, err := disk.TryLock(path); !errors.As(err, &held) || runtime.GOOS != "windows" && held.Holder.Process != os.Getpid() {
		t.Errorf("the second: got %v", err)
	}
	if took := time.Since(began); took < 10*time.Millisecond { // some other may only be looking whether it is left over
		t.Errorf("the second was refused after %v", took)
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
