package main

import (
	"bytes"
	"fmt"
	"go/format"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// checkFormat finds the Go files that gofmt would write otherwise. It uses the
// package behind gofmt, which is there wherever this program was compiled.
func (w *workshop) checkFormat() error {
	files, err := goFiles(w.root)
	if err != nil {
		return err
	}
	var unlike []string
	for _, file := range files {
		text, err := os.ReadFile(filepath.Join(w.root, file))
		if err != nil {
			return err
		}
		if !formatted(text) {
			unlike = append(unlike, file)
		}
	}
	if len(unlike) > 0 {
		return fmt.Errorf("not formatted; type: gofmt -w %s", strings.Join(unlike, " "))
	}
	return nil
}

// formatted tells whether text is what gofmt would write. Text that is not Go
// is left to the compiler, which says where it is wrong.
func formatted(text []byte) bool {
	want, err := format.Source(text)
	return err != nil || bytes.Equal(text, want)
}

// goFiles returns the Go files of the module below root, as paths from there.
// Like the go command it passes over testdata and names that begin with a dot
// or an underscore.
func goFiles(root string) ([]string, error) {
	var files []string
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && path != root && ignoredName(entry.Name()):
			return fs.SkipDir
		case entry.IsDir() || filepath.Ext(path) != ".go" || ignoredName(entry.Name()):
			return nil
		}
		name, err := filepath.Rel(root, path)
		files = append(files, name)
		return err
	})
	return files, err
}

func ignoredName(name string) bool {
	return name == "testdata" || strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_")
}
