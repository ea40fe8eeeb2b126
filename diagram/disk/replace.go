package disk

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
)

// Options say how a file is replaced.
type Options struct {
	// Backups is how many generations are kept of what stood there before.
	Backups int
	// Expect is what must stand there still; nil takes whatever does.
	Expect *Stamp
	// EvenReadOnly replaces also a file that is marked as read-only.
	EvenReadOnly bool
}

// Outcome is what came of a write that succeeded.
type Outcome struct {
	Stamp    Stamp   // of what was written
	Warnings []error // what did not go as it should, besides
}

// ErrReadOnly is that the file may only be read.
var ErrReadOnly = errors.New("the file is marked as read-only")

// ErrChanged is that what stands there is not what was expected.
var ErrChanged = errors.New("the file was changed by another program since it was opened")

// ErrUncertain is that the new file is in its place, but that the disk has not
// confirmed it.
var ErrUncertain = errors.New("the file was written, but the disk has not confirmed it; save it again, or to another disk")

// Replace puts what write writes in the place of the file at the path, or makes
// one. A link is followed; permissions, owner, group and extended attributes
// are kept where that is possible. Where Replace fails the old file stands, but
// for ErrUncertain.
func (d Disk) Replace(path string, o Options, write func(io.Writer) error) (Outcome, error) {
	path = d.Target(path)
	before, err := d.standing(path, o)
	if err != nil {
		return Outcome{}, err
	}
	d.Clean(filepath.Dir(path))
	name, sum, err := d.writeBeside(path, before, write)
	if err != nil {
		return Outcome{}, err
	}
	var out Outcome
	if out.Warnings, err = d.keepOld(path, before, sum, o); err == nil {
		err = d.put(name, path, before, o)
	}
	if err != nil {
		return Outcome{}, errors.Join(err, d.system().Remove(name))
	}
	out.Stamp = Stamp{Exists: true, Sum: sum}
	info, err := d.system().Stat(path)
	if err == nil {
		out.Stamp.Size, out.Stamp.Time = info.Size(), info.ModTime()
	}
	if err = errors.Join(err, d.syncFolder(filepath.Dir(path))); err != nil {
		return out, fmt.Errorf("%w (%w)", ErrUncertain, err)
	}
	return out, nil
}

// put is the moment at which the new file takes the place of the old.
func (d Disk) put(name, path string, before fs.FileInfo, o Options) error {
	if runtime.GOOS == "windows" && before != nil && o.EvenReadOnly {
		if err := d.system().Chmod(path, 0o666); err != nil {
			return err
		}
	}
	return d.system().Rename(name, path)
}

// Target returns the file that a chain of symbolic links leads to, which need
// not exist. A ring of links is left for the system to refuse.
func (d Disk) Target(path string) string {
	for range 40 {
		to, err := d.system().Readlink(path)
		if err != nil {
			return path
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return path
}

// standing returns what is to be replaced, or nil, and refuses what may not be.
func (d Disk) standing(path string, o Options) (fs.FileInfo, error) {
	info, err := d.system().Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errNotOrdinary
	case o.EvenReadOnly:
		return info, nil
	case info.Mode().Perm()&0o222 == 0:
		return nil, ErrReadOnly
	}
	f, err := d.system().OpenFile(path, os.O_WRONLY, 0)
	switch {
	case errors.Is(err, fs.ErrPermission):
		return nil, ErrReadOnly
	case err != nil:
		return nil, err
	}
	return info, f.Close()
}

var errNotOrdinary = errors.New("it is no ordinary file; choose another name")

// writeBeside writes a new file in the folder of the path, down to the disk,
// with the rights of the one before, and returns its name and what it holds. It
// leaves nothing behind where it fails.
func (d Disk) writeBeside(path string, before fs.FileInfo, write func(io.Writer) error) (string, [sha256.Size]byte, error) {
	name, sum := temporary(path), sha256.New()
	mode := fs.FileMode(0o666)
	if before != nil {
		mode = 0o600 // until it is known whose it is
	}
	f, err := d.system().OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return "", [sha256.Size]byte{}, err
	}
	err = write(io.MultiWriter(f, sum))
	if err == nil && before != nil {
		err = d.inherit(path, name, before)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return "", [sha256.Size]byte{}, errors.Join(err, d.system().Remove(name))
	}
	return name, [sha256.Size]byte(sum.Sum(nil)), nil
}

// inherit gives a new file the rights of the one that it replaces. Where the
// group cannot be kept, no other group gets its rights.
func (d Disk) inherit(path, name string, before fs.FileInfo) error {
	mode := before.Mode().Perm()
	if d.system().Own(path, name) != nil {
		mode = mode&^0o070 | mode&0o007<<3&mode
	}
	if err := d.system().Chmod(name, mode); err != nil {
		return err
	}
	_ = d.system().Attributes(path, name) // where possible: not every disk has them
	return nil
}

// syncFolder brings the names in a folder down to the disk, where the system
// can.
func (d Disk) syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := d.system().OpenFile(path, os.O_RDONLY, 0)
	if err != nil {
		return err
	}
	err = folder.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, folder.Close())
}

// MakeFolder makes a folder that others may not look into, and those that it is
// in, where there is none.
func (d Disk) MakeFolder(path string) error { return d.system().MkdirAll(path, 0o700) }
