// Package disktest lets the calls that a write makes of the system fail, for
// tests.
package disktest

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"clampline/diagram/disk"
)

// ErrKilled is what every call returns from the moment on at which the program
// is no more.
var ErrKilled = errors.New("killed")

// Fault is what happens at a call.
type Fault struct {
	Name string
	Err  error // that the call returns
	Part bool  // a write does the first half before that
	Kill bool  // no later call does anything either
}

// Faults are those that every call can meet.
func Faults() []Fault {
	return []Fault{
		{Name: "disk full", Err: syscall.ENOSPC},
		{Name: "disk broken", Err: syscall.EIO},
		{Name: "no right", Err: syscall.EACCES},
		{Name: "short write", Err: io.ErrShortWrite, Part: true},
		{Name: "killed", Err: ErrKilled, Part: true, Kill: true},
	}
}

// Faulty is the real system with a fault at one call.
type Faulty struct {
	At    int // the number of the call, from 1; 0 is none
	Fault Fault
	Calls []string // what was asked: the operation and the last part of each name
	Was   string   // the call at which the fault was
	dead  bool
}

var _ disk.System = (*Faulty)(nil)

// step counts a call and returns what befalls it.
func (f *Faulty) step(operation string, names ...string) error {
	if f.dead {
		return ErrKilled
	}
	for _, name := range names {
		operation += " " + filepath.Base(name)
	}
	f.Calls = append(f.Calls, operation)
	if len(f.Calls) != f.At {
		return nil
	}
	f.Was, f.dead = operation, f.Fault.Kill
	return &fs.PathError{Op: operation, Err: f.Fault.Err}
}

// OpenFile implements disk.System.
func (f *Faulty) OpenFile(name string, flag int, mode fs.FileMode) (disk.File, error) {
	if err := f.step("open", name); err != nil {
		return nil, err
	}
	file, err := os.OpenFile(name, flag, mode)
	if err != nil {
		return nil, err
	}
	return &faultyFile{f, file}, nil
}

// Stat implements disk.System.
func (f *Faulty) Stat(name string) (info fs.FileInfo, err error) {
	err = f.do(func() (err error) { info, err = os.Stat(name); return err }, "stat", name)
	return info, err
}

// Readlink implements disk.System.
func (f *Faulty) Readlink(name string) (to string, err error) {
	err = f.do(func() (err error) { to, err = os.Readlink(name); return err }, "readlink", name)
	return to, err
}

// ReadDir implements disk.System.
func (f *Faulty) ReadDir(name string) (list []fs.DirEntry, err error) {
	err = f.do(func() (err error) { list, err = os.ReadDir(name); return err }, "readdir", name)
	return list, err
}

// MkdirAll implements disk.System.
func (f *Faulty) MkdirAll(name string, mode fs.FileMode) error {
	return f.do(func() error { return os.MkdirAll(name, mode) }, "mkdir", name)
}

// Chmod implements disk.System.
func (f *Faulty) Chmod(name string, mode fs.FileMode) error {
	return f.do(func() error { return os.Chmod(name, mode) }, "chmod", name)
}

// Chtimes implements disk.System.
func (f *Faulty) Chtimes(name string, accessed, modified time.Time) error {
	return f.do(func() error { return os.Chtimes(name, accessed, modified) }, "chtimes", name)
}

// Rename implements disk.System.
func (f *Faulty) Rename(from, to string) error {
	return f.do(func() error { return os.Rename(from, to) }, "rename", from, to)
}

// Remove implements disk.System.
func (f *Faulty) Remove(name string) error {
	return f.do(func() error { return os.Remove(name) }, "remove", name)
}

// Own implements disk.System.
func (f *Faulty) Own(from, to string) error {
	return f.do(func() error { return disk.Real{}.Own(from, to) }, "own", from, to)
}

// Attributes implements disk.System.
func (f *Faulty) Attributes(from, to string) error {
	return f.do(func() error { return disk.Real{}.Attributes(from, to) }, "attributes", from, to)
}

func (f *Faulty) do(act func() error, operation string, names ...string) error {
	if err := f.step(operation, names...); err != nil {
		return err
	}
	return act()
}

// faultyFile is an open file of a faulty system.
type faultyFile struct {
	system *Faulty
	file   *os.File
}

// Read implements disk.File.
func (f *faultyFile) Read(p []byte) (int, error) {
	if err := f.system.step("read", f.file.Name()); err != nil {
		return 0, err
	}
	return f.file.Read(p)
}

// Write implements disk.File.
func (f *faultyFile) Write(p []byte) (int, error) {
	alive := !f.system.dead
	err := f.system.step("write", f.file.Name())
	if err == nil {
		return f.file.Write(p)
	}
	if alive && f.system.Fault.Part {
		n, _ := f.file.Write(p[:len(p)/2])
		return n, err
	}
	return 0, err
}

// Stat implements disk.File.
func (f *faultyFile) Stat() (info fs.FileInfo, err error) {
	err = f.system.do(func() (err error) { info, err = f.file.Stat(); return err }, "fstat", f.file.Name())
	return info, err
}

// Sync implements disk.File. It is counted and not done: here no power fails, and
// a test makes thousands of them.
func (f *faultyFile) Sync() error { return f.system.step("sync", f.file.Name()) }

// Close implements disk.File. The file is closed in any case, as that of a
// program that is no more.
func (f *faultyFile) Close() error {
	return errors.Join(f.system.step("close", f.file.Name()), f.file.Close())
}

// Temporary reports whether the name in a call is that of a file that a write
// makes before it is in its place.
func Temporary(name string) bool {
	return strings.HasPrefix(name, ".clampline-") && strings.HasSuffix(name, ".tmp")
}
