package disk

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strconv"
	"time"
)

// BackupExtension is added to the name of a file for the newest copy of what
// stood there before.
const BackupExtension = ".bak"

// BackupPath returns where the generation is kept, from 1, the newest.
func BackupPath(path string, generation int) string {
	if generation == 1 {
		return path + BackupExtension
	}
	return path + BackupExtension + strconv.Itoa(generation)
}

// maxBackups bounds how many generations are looked for.
const maxBackups = 99

// Backups returns the generations that are there, the newest first. One that is
// missing between them ends nothing: a write may have been cut short.
func (d Disk) Backups(path string) []string {
	path = d.Target(path)
	entries, err := d.system().ReadDir(filepath.Dir(path))
	if err != nil {
		return nil
	}
	there := map[string]bool{}
	for _, entry := range entries {
		there[entry.Name()] = entry.Type().IsRegular()
	}
	var out []string
	for generation := 1; generation <= maxBackups; generation++ {
		if name := BackupPath(path, generation); there[filepath.Base(name)] {
			out = append(out, name)
		}
	}
	return out
}

// keepOld sees that the file is the expected one, and keeps it as the newest
// backup. That no backup could be made is a warning: the new file is complete
// on the disk by then, and the old one stands until that takes its place.
func (d Disk) keepOld(path string, before fs.FileInfo, sum [sha256.Size]byte, o Options) ([]error, error) {
	if o.Expect == nil && (before == nil || o.Backups == 0) {
		return nil, nil
	}
	old, err := d.Stamp(path)
	if err := o.unexpected(old, err); err != nil {
		return nil, err
	}
	if nothingIsLost := err == nil && (!old.Exists || old.Sum == sum); nothingIsLost || o.Backups == 0 {
		return nil, nil
	}
	if err == nil {
		err = d.backUp(path, before, o.Backups)
	}
	if err != nil {
		return []error{fmt.Errorf("no backup could be made of what stood there before (%w)", InWords(err))}, nil
	}
	if o.Expect != nil && !d.Unchanged(path, old) {
		return nil, ErrChanged // while it was being copied
	}
	return nil, nil
}

// unexpected returns what is wrong with the file that stands there, or with looking
// at it, where a certain one is expected.
func (o Options) unexpected(old Stamp, err error) error {
	switch {
	case o.Expect == nil:
		return nil
	case err == nil && old.Exists && !old.Same(*o.Expect):
		return ErrChanged
	}
	return err
}

// backUp copies the file, and when the copy is on the disk lets each
// generation take the place of the one before it.
func (d Disk) backUp(path string, before fs.FileInfo, generations int) error {
	for generation := 1; generation <= generations; generation++ {
		if info, err := d.system().Stat(BackupPath(path, generation)); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("%s is no ordinary file", filepath.Base(BackupPath(path, generation)))
		}
	}
	old, err := d.Open(path)
	if err != nil {
		return err
	}
	name, _, err := d.writeBeside(path, before, func(w io.Writer) error { _, err := io.Copy(w, old); return err })
	_ = old.Close() // it was only read
	if err != nil {
		return err
	}
	_ = d.system().Chtimes(name, time.Time{}, before.ModTime()) // the time is for people
	if err := d.moveOn(path, name, generations); err != nil {
		return errors.Join(err, d.system().Remove(name))
	}
	d.dropBeyond(path, generations)
	return nil
}

// dropBeyond removes the generations that are no longer kept.
func (d Disk) dropBeyond(path string, generations int) {
	for generation := generations + 1; generation <= maxBackups; generation++ {
		if d.system().Remove(BackupPath(path, generation)) != nil {
			return
		}
	}
}

// moveOn makes room for the newest generation and puts it there.
func (d Disk) moveOn(path, newest string, generations int) error {
	for generation := generations - 1; generation >= 1; generation-- {
		err := d.system().Rename(BackupPath(path, generation), BackupPath(path, generation+1))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return d.system().Rename(newest, BackupPath(path, 1))
}
