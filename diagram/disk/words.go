package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"runtime"
	"syscall"
)

// diskFullOnWindows is ERROR_DISK_FULL.
const diskFullOnWindows = syscall.Errno(112)

// Explain says in plain words why the file could not be opened or saved: doing
// is "open" or "save".
func Explain(doing, path string, err error) error {
	why := ""
	switch {
	case errors.Is(err, ErrReadOnly):
		why = err.Error() + "; make it one that may be written to, or choose another name"
	case errors.Is(err, ErrChanged), errors.Is(err, ErrUncertain):
		why = err.Error()
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
	case isFull(err):
		why = "the disk is full; make room, or save it to another disk"
	case errors.Is(err, syscall.ENAMETOOLONG):
		why = "the name is too long; choose a shorter one"
	default:
		return fmt.Errorf("%s %s: %w", doing, path, err)
	}
	return explained{fmt.Sprintf("%s %s: %s", doing, path, why), err}
}

// InWords says in a few plain words what the system refused, without where.
func InWords(err error) error {
	why := ""
	switch {
	case errors.Is(err, syscall.EROFS):
		why = "the disk is read-only"
	case errors.Is(err, fs.ErrPermission):
		why = "you may not write there"
	case isFull(err):
		why = "the disk is full"
	case errors.Is(err, syscall.ENAMETOOLONG):
		why = "the name is too long"
	case errors.Is(err, syscall.EIO):
		why = "the disk reports a fault"
	default:
		var cause syscall.Errno
		if !errors.As(err, &cause) {
			return err
		}
		why = cause.Error()
	}
	return explained{why, err}
}

func isFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || runtime.GOOS == "windows" && errors.Is(err, diskFullOnWindows)
}

// explained is an error of the system in words that say how to mend it.
type explained struct {
	text  string
	cause error
}

func (e explained) Error() string { return e.text }
func (e explained) Unwrap() error { return e.cause }
