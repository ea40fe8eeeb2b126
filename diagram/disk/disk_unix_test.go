//go:build linux || darwin

package disk_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"clampline/diagram/disk"
)

// What is no file is refused at once and not waited for.
func TestOpenRefusesWhatIsNoFile(t *testing.T) {
	folder := t.TempDir()
	pipe := filepath.Join(folder, "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{pipe: "a pipe", "/dev/zero": "a device", folder: "a folder"} {
		done := make(chan error, 1)
		go func() {
			_, err := disk.Disk{}.Open(path)
			done <- err
		}()
		select {
		case err := <-done:
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: got %v, want %q", path, err, want)
			}
		case <-time.After(5 * time.Second):
			t.Errorf("%s: it waits", path)
		}
		if _, err := (disk.Disk{}).Replace(path, disk.Options{}, writing(two)); err == nil {
			t.Errorf("%s was replaced", path)
		}
	}
}

// A pipe that takes the place of a file after it was looked at is not waited for.
func TestOpenDoesNotWaitForAPipe(t *testing.T) {
	folder := t.TempDir()
	path, pipe := filepath.Join(folder, "x"), filepath.Join(folder, "pipe")
	put(t, path, one)
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() {
		_, err := disk.Disk{System: swapping{path: path}}.Open(pipe)
		done <- err
	}()
	select {
	case err := <-done:
		if err == nil || !strings.Contains(err.Error(), "a pipe") {
			t.Errorf("got %v", err)
		}
	case <-time.After(5 * time.Second):
		t.Error("it waits")
	}
}

func TestRightsAreKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	if err := unix.Setxattr(path, "user.origin", []byte("archive"), 0); err != nil {
		t.Skipf("no extended attributes here: %v", err)
	}
	uid, gid := os.Getuid(), os.Getgid()
	if uid == 0 {
		uid, gid = 1234, 2345
		if err := os.Chown(path, uid, gid); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(path, 0o664); err != nil {
		t.Fatal(err)
	}
	replace(t, path, two, disk.Options{Backups: 1})
	for _, name := range []string{path, path + ".bak"} {
		value := make([]byte, 20)
		n, err := unix.Getxattr(name, "user.origin", value)
		if err != nil || string(value[:n]) != "archive" {
			t.Errorf("%s: the attribute is %q, %v", name, value[:max(n, 0)], err)
		}
		var s unix.Stat_t
		if err := unix.Stat(name, &s); err != nil {
			t.Fatal(err)
		}
		if got, want := fmt.Sprintf("%d %d %o", s.Uid, s.Gid, s.Mode&0o777), fmt.Sprintf("%d %d 664", uid, gid); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
		if s.Nlink != 1 {
			t.Errorf("%s has %d names", name, s.Nlink)
		}
	}
}

// A file of one's own that belongs to another group keeps both.
func TestGroupAloneIsKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	if err := os.Chown(path, -1, 2345); err != nil {
		t.Skipf("no other group is to be had: %v", err)
	}
	replace(t, path, two, disk.Options{})
	var s unix.Stat_t
	if err := unix.Stat(path, &s); err != nil || int(s.Uid) != os.Getuid() || s.Gid != 2345 {
		t.Errorf("got owner %d and group %d, %v", s.Uid, s.Gid, err)
	}
}

// Where the group cannot be kept, no other group may write instead.
func TestGroupThatCannotBeKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	put(t, path, one)
	if err := os.Chmod(path, 0o664); err != nil {
		t.Fatal(err)
	}
	if _, err := (disk.Disk{System: foreign{}}).Replace(path, disk.Options{}, writing(two)); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o644 {
		t.Errorf("got %v, %v, want 644", info.Mode(), err)
	}
}

// foreign is a system on which the group is not to be had.
type foreign struct{ disk.Real }

func (foreign) Own(string, string) error { return syscall.EPERM }
