package file

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"syscall"

	"clampline/diagram"
)

// Extension ends the name of every sheet.
const Extension = ".clampline"

// BackupExtension is added to the name of a sheet for the copy that Save
// keeps of what stood there before.
const BackupExtension = ".bak"

// Load reads the sheet at the path. Where that is broken and a backup stands
// beside it, the error names the backup.
func Load(path string) (*diagram.Document, error) { return load(path, Read) }

// load reads the file at the path; a folder is refused.
func load[T any](path string, read func(io.Reader) (*T, error)) (*T, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, explain("open", path, err)
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, explain("open", path, err)
	case info.IsDir():
		return nil, fmt.Errorf("open %s: it is a folder; choose a file in it", path)
	}
	content, err := read(f)
	if err == nil {
		return content, nil
	}
	if _, missing := os.Stat(path + BackupExtension); missing == nil {
		return nil, fmt.Errorf("open %s: %w\nthe file before it is kept as %s", path, err, filepath.Base(path)+BackupExtension)
	}
	return nil, fmt.Errorf("open %s: %w", path, err)
}

// Save writes the document to the path and keeps what stood there in a backup
// beside it. At every moment there is a complete file at the path if there
// was one before; where Save fails, it is the old one. A symbolic link is
// followed, and permissions are kept.
func Save(path string, doc *diagram.Document) error {
	var text bytes.Buffer
	if err := Write(&text, doc); err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	if err := replace(path, true, text.WriteTo); err != nil {
		return explain("save", path, err)
	}
	return nil
}

// replace puts what write writes in the place of the file.
func replace(path string, keep bool, write func(io.Writer) (int64, error)) error {
	path = follow(path)
	mode := fs.FileMode(0o666)
	before, err := os.Stat(path)
	switch {
	case err == nil && !before.Mode().IsRegular():
		return errNotRegular
	case err == nil:
		mode = before.Mode().Perm()
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	temporary, err := writeBeside(path, mode, before != nil, write)
	if err != nil {
		return err
	}
	if keep && before != nil {
		err = backUp(path, mode)
	}
	if err == nil {
		err = os.Rename(temporary, path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(temporary))
	}
	return syncFolder(filepath.Dir(path))
}

var errNotRegular = errors.New("it is no ordinary file; choose another name")

// follow returns the file that a chain of symbolic links leads to, which need
// not exist. A ring of links is left for the system to refuse.
func follow(path string) string {
	for range 40 {
		to, err := os.Readlink(path)
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

// writeBeside writes a new file in the folder of the path, down to the disk,
// and returns its name. It leaves nothing behind where it fails.
func writeBeside(path string, mode fs.FileMode, exact bool, write func(io.Writer) (int64, error)) (string, error) {
	name := beside(path)
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return "", err
	}
	if exact { // and not less what the user's mask takes away
		err = f.Chmod(mode)
	}
	if err == nil {
		_, err = write(f)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return "", errors.Join(err, os.Remove(name))
	}
	return name, nil
}

// beside returns a new name in the folder of the path. It does not grow with
// the name of the file, which may be as long as the system allows.
func beside(path string) string {
	return filepath.Join(filepath.Dir(path), ".clampline-"+strconv.FormatUint(rand.Uint64(), 36)+".tmp")
}

// backUp gives the file a second name, or copies it where the file system has
// no hard links, and only then takes the place of the last backup.
func backUp(path string, mode fs.FileMode) error {
	name := beside(path)
	if os.Link(path, name) != nil {
		old, err := os.Open(path)
		if err != nil {
			return err
		}
		defer old.Close()
		name, err = writeBeside(path, mode, true, func(w io.Writer) (int64, error) { return io.Copy(w, old) })
		if err != nil {
			return fmt.Errorf("no backup could be made: %w", err)
		}
	}
	if err := os.Rename(name, path+BackupExtension); err != nil {
		return errors.Join(fmt.Errorf("no backup could be made: %w", err), os.Remove(name))
	}
	// Where both names are of one file already, a rename does nothing and
	// leaves the name behind.
	if err := os.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// syncFolder brings the names in a folder down to the disk, where the system
// can.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	err = folder.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, folder.Close())
}

// diskFullOnWindows is ERROR_DISK_FULL.
const diskFullOnWindows = syscall.Errno(112)

// explain says in plain words why the file could not be opened or saved.
func explain(doing, path string, err error) error {
	why := ""
	switch {
	case errors.Is(err, fs.ErrNotExist) && doing == "save":
		why = "there is no such folder; make it, or choose another"
	case errors.Is(err, fs.ErrNotExist):
		why = "there is no such file; it may have been moved or renamed"
	case errors.Is(err, syscall.EROFS):
		why = "the disk is read-only; save it to another place"
	case errors.Is(err, fs.ErrPermission) && doing == "save":
		why = "you may not write there; save it to another folder"
	case errors.Is(err, fs.ErrPermission):
		why = "you may not read it; ask whoever owns it"
	case errors.Is(err, syscall.ENOSPC), runtime.GOOS == "windows" && errors.Is(err, diskFullOnWindows):
		why = "the disk is full; make room, or save it to another disk"
	case errors.Is(err, syscall.ENAMETOOLONG):
		why = "the name is too long; choose a shorter one"
	default:
		return fmt.Errorf("%s %s: %w", doing, path, err)
	}
	return explained{fmt.Sprintf("%s %s: %s", doing, path, why), err}
}

// explained is an error of the system in words that say how to mend it.
type explained struct {
	text  string
	cause error
}

func (e explained) Error() string { return e.text }
func (e explained) Unwrap() error { return e.cause }
