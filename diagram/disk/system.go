package disk

import (
	"io"
	"io/fs"
	"os"
	"time"
)

// System is what is asked of the operating system. Each method does what the
// function of package os with its name does.
type System interface {
	OpenFile(name string, flag int, mode fs.FileMode) (File, error)
	Stat(name string) (fs.FileInfo, error)
	Readlink(name string) (string, error)
	ReadDir(name string) ([]fs.DirEntry, error)
	MkdirAll(name string, mode fs.FileMode) error
	Chmod(name string, mode fs.FileMode) error
	Chtimes(name string, accessed, modified time.Time) error
	Rename(from, to string) error
	Remove(name string) error
	// Own gives the second file the owner and the group of the first.
	Own(from, to string) error
	// Attributes gives the second file the extended attributes of the first.
	Attributes(from, to string) error
}

// File is an open file or folder.
type File interface {
	io.ReadWriter
	Stat() (fs.FileInfo, error)
	Sync() error
	Close() error
}

// Disk reads and writes files. The zero value uses the real system.
type Disk struct{ System System }

func (d Disk) system() System {
	if d.System == nil {
		return Real{}
	}
	return d.System
}

// Real is the operating system.
type Real struct{}

var _ System = Real{}

// OpenFile opens a file.
func (Real) OpenFile(name string, flag int, mode fs.FileMode) (File, error) {
	f, err := os.OpenFile(name, flag, mode)
	if err != nil {
		return nil, err // and not a File that holds a nil
	}
	return f, nil
}

// Stat follows links.
func (Real) Stat(name string) (fs.FileInfo, error) { return os.Stat(name) }

// Readlink returns where a link leads.
func (Real) Readlink(name string) (string, error) { return os.Readlink(name) }

// ReadDir lists a folder.
func (Real) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }

// MkdirAll makes a folder and those that it is in.
func (Real) MkdirAll(name string, mode fs.FileMode) error { return os.MkdirAll(name, mode) }

// Chmod sets permissions.
func (Real) Chmod(name string, mode fs.FileMode) error { return os.Chmod(name, mode) }

// Chtimes sets the times of a file.
func (Real) Chtimes(name string, accessed, modified time.Time) error {
	return os.Chtimes(name, accessed, modified)
}

// Rename gives a file another name, in place of what has it.
func (Real) Rename(from, to string) error { return os.Rename(from, to) }

// Remove removes a file or an empty folder.
func (Real) Remove(name string) error { return os.Remove(name) }

// Own gives the second file the owner and the group of the first.
func (Real) Own(from, to string) error { return own(from, to) }

// Attributes gives the second file the extended attributes of the first.
func (Real) Attributes(from, to string) error { return attributes(from, to) }
