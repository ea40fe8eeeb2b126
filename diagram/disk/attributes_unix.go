//go:build linux || darwin || freebsd || netbsd

package disk

import (
	"errors"
	"os"
	"strings"
	"syscall"

	"golang.org/x/sys/unix"
)

// own gives the second file the owner and the group of the first. The group is
// kept where the owner cannot be.
func own(from, to string) error {
	var was, is unix.Stat_t
	if err := errors.Join(unix.Stat(from, &was), unix.Stat(to, &is)); err != nil {
		return err
	}
	var err error
	if was.Gid != is.Gid {
		err = os.Chown(to, -1, int(was.Gid))
	}
	if was.Uid != is.Uid {
		_ = os.Chown(to, int(was.Uid), -1) // only the administrator may; the file is then of who saves it
	}
	return err
}

// attributes copies the extended attributes, access lists among them. Those
// that the system keeps to itself are left out.
func attributes(from, to string) error {
	size, err := unix.Listxattr(from, nil)
	if err != nil || size == 0 {
		return unlessUnsupported(err)
	}
	names := make([]byte, size)
	if size, err = unix.Listxattr(from, names); err != nil {
		return err
	}
	for _, name := range strings.Split(strings.TrimRight(string(names[:size]), "\x00"), "\x00") {
		err = errors.Join(err, attribute(from, to, name))
	}
	return err
}

func attribute(from, to, name string) error {
	size, err := unix.Getxattr(from, name, nil)
	if err != nil {
		return err
	}
	value := make([]byte, size)
	if size, err = unix.Getxattr(from, name, value); err != nil {
		return err
	}
	return unix.Setxattr(to, name, value[:size], 0)
}

func unlessUnsupported(err error) error {
	if errors.Is(err, syscall.ENOTSUP) || errors.Is(err, syscall.EPERM) {
		return nil
	}
	return err
}
