package main

import (
	"context"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"path/filepath"
	"slices"
	"strings"
)

// listed is one package as the go command lists it.
type listed struct {
	ImportPath   string
	Dir          string
	GoFiles      []string
	CgoFiles     []string
	TestGoFiles  []string
	XTestGoFiles []string
	Deps         []string
}

// list returns the packages of the module.
func (w *workshop) list(ctx context.Context) ([]listed, error) {
	text, err := w.capture(ctx, "go", "list",
		"-json=ImportPath,Dir,GoFiles,CgoFiles,TestGoFiles,XTestGoFiles,Deps", "./...")
	if err != nil {
		return nil, err
	}
	return decodeListing(strings.NewReader(text))
}

// decodeListing reads one JSON object after another.
func decodeListing(from io.Reader) ([]listed, error) {
	var packages []listed
	for decoder := json.NewDecoder(from); ; {
		var p listed
		err := decoder.Decode(&p)
		if errors.Is(err, io.EOF) {
			return packages, nil
		}
		if err != nil {
			return nil, err
		}
		packages = append(packages, p)
	}
}

// opensWindows tells whether the package is linked with the part of the
// toolkit that needs OpenGL and C.
func (p listed) opensWindows() bool {
	return slices.Contains(p.Deps, "fyne.io/fyne/v2/app")
}

// sources parses the files of the package but for its tests.
func (p listed) sources() ([]*ast.File, error) {
	return parseFiles(p.Dir, slices.Concat(p.GoFiles, p.CgoFiles))
}

// tests parses the test files of the package.
func (p listed) tests() ([]*ast.File, error) {
	return parseFiles(p.Dir, slices.Concat(p.TestGoFiles, p.XTestGoFiles))
}

func parseFiles(folder string, names []string) ([]*ast.File, error) {
	var files []*ast.File
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(folder, name), nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	return files, nil
}
