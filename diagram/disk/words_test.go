package disk_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"clampline/diagram/disk"
)

// What a person is told fits what was tried, keeps its cause, and says what to do.
func TestExplain(t *testing.T) {
	_, missing := os.Open(filepath.Join(t.TempDir(), "none"))
	in := func(err error) error { return &fs.PathError{Op: "open", Path: "x", Err: err} }
	for _, row := range []struct {
		doing string
		cause error
		want  string
	}{
		{"save", missing, "there is no such folder; make it, or choose another"},
		{"open", missing, "there is no such file; it may have been moved or renamed"},
		{"save", in(syscall.EACCES), "you may not write there; save it to another folder"},
		{"open", in(syscall.EACCES), "you may not read it; ask whoever owns it"},
		{"save", in(syscall.EROFS), "the disk is read-only; save it to another place"},
		{"save", in(syscall.ENOSPC), "the disk is full; make room, or save it to another disk"},
		{"save", in(syscall.EDQUOT), "the disk is full; make room, or save it to another disk"},
		{"save", in(syscall.ENAMETOOLONG), "the name is too long; choose a shorter one"},
		{"save", disk.ErrReadOnly, "the file is marked as read-only; make it one that may be written to, or choose another name"},
		{"save", disk.ErrChanged, "the file was changed by another program since it was opened"},
		{"save", fmt.Errorf("%w (so)", disk.ErrUncertain), "the file was written, but the disk has not confirmed it; save it again, or to another disk (so)"},
		{"save", errors.New("anything else"), "anything else"},
	} {
		err := disk.Explain(row.doing, "barn.json", row.cause)
		if want := row.doing + " barn.json: " + row.want; err.Error() != want || !errors.Is(err, row.cause) {
			t.Errorf("got %q, want %q", err, want)
		}
	}
}

func TestInWords(t *testing.T) {
	for _, row := range []struct {
		cause error
		want  string
	}{
		{syscall.EROFS, "the disk is read-only"}, {syscall.EACCES, "you may not write there"}, {syscall.ENOSPC, "the disk is full"},
		{syscall.ENAMETOOLONG, "the name is too long"}, {syscall.EIO, "the disk reports a fault"},
		{syscall.EMFILE, syscall.EMFILE.Error()}, {errors.New("anything else"), "anything else"},
	} {
		cause := fmt.Errorf("rename a b: %w", row.cause)
		if err := disk.InWords(cause); !errors.Is(err, row.cause) || !strings.HasSuffix(err.Error(), row.want) || len(err.Error()) > len(row.want) && row.want != "anything else" {
			t.Errorf("got %q, want %q", err, row.want)
		}
	}
}
