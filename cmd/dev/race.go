package main

import (
	"context"
	"go/ast"
	"slices"
)

// checkRaces runs the tests of the packages that start goroutines under the
// race detector. Packages that open windows are left out: they would compile
// OpenGL's side of the toolkit once more, and the window test runs them. Tests
// that take minutes are left out by themselves: they have run without it.
func (w *workshop) checkRaces(ctx context.Context) error {
	packages, err := w.list(ctx)
	if err != nil {
		return err
	}
	paths, err := concurrent(packages)
	if err != nil {
		return err
	}
	if len(paths) == 0 {
		w.say("no package starts a goroutine")
		return nil
	}
	return w.run(ctx, "go", append([]string{"test", "-race", "-short", longest}, paths...)...)
}

// concurrent returns the import paths of the packages that start goroutines
// and open no windows.
func concurrent(packages []listed) ([]string, error) {
	var paths []string
	for _, p := range packages {
		if p.opensWindows() {
			continue
		}
		files, err := p.sources()
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(files, startsGoroutine) {
			paths = append(paths, p.ImportPath)
		}
	}
	return paths, nil
}

// startsGoroutine tells whether a file has a go statement or calls one of the
// ways around it: a method Go, as wait groups have, or AfterFunc.
func startsGoroutine(file *ast.File) bool {
	found := false
	ast.Inspect(file, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.GoStmt:
			found = true
		case *ast.CallExpr:
			selector, ok := n.Fun.(*ast.SelectorExpr)
			found = found || ok && (selector.Sel.Name == "Go" || selector.Sel.Name == "AfterFunc")
		}
		return !found
	})
	return found
}
