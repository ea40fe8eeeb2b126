package main

import (
	"bytes"
	"context"
	"errors"
	"go/ast"
	"io"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// fuzzTime is how long each target looks for bad inputs. It is enough to find
// what a change breaks at once; longer runs are for the person who changes a
// reader.
const fuzzTime = 5 * time.Second

// fuzzTarget is one fuzz function of a package.
type fuzzTarget struct {
	packagePath string
	name        string
}

// checkFuzz runs each fuzz target for a time, one after the other as the go
// command wants it.
func (w *workshop) checkFuzz(ctx context.Context, each func(targets int) time.Duration) error {
	packages, err := w.list(ctx)
	if err != nil {
		return err
	}
	targets, err := fuzzTargets(packages)
	if err != nil {
		return err
	}
	length := each(len(targets))
	w.say("targets: %d, %s each", len(targets), length)
	var found []error
	for _, target := range targets {
		found = append(found, w.fuzz(ctx, target, length))
	}
	return errors.Join(found...)
}

// fuzz runs one target. A run that the clock ended in an unlucky moment is
// tried once more.
func (w *workshop) fuzz(ctx context.Context, target fuzzTarget, length time.Duration) error {
	text, err := w.fuzzOnce(ctx, target, length)
	if err != nil && ctx.Err() == nil && endedByClock(text) {
		w.say("%s was stopped by its own clock without a finding; once more", target.name)
		_, err = w.fuzzOnce(ctx, target, length)
	}
	return err
}

func (w *workshop) fuzzOnce(ctx context.Context, target fuzzTarget, length time.Duration) (string, error) {
	args := []string{"test", target.packagePath, "-run=^$", "-fuzz=^" + target.name + "$", "-fuzztime=" + length.String(), "-fuzzminimizetime=10x"}
	cmd := w.program(ctx, "go", args...)
	var text bytes.Buffer
	cmd.Stdout = io.MultiWriter(w.out, &text)
	err := explain(cmd.Run(), "go", args)
	return text.String(), err
}

// endedByClock tells a failure of the fuzzing machinery from a finding: now
// and then the end of the time reaches a worker first and is reported as an
// error, but no input is written then.
func endedByClock(output string) bool {
	return strings.Contains(output, "context deadline exceeded") &&
		!strings.Contains(output, "Failing input written to")
}

// fuzzTargets returns the targets of all packages, in the order of the files.
func fuzzTargets(packages []listed) ([]fuzzTarget, error) {
	var targets []fuzzTarget
	for _, p := range packages {
		files, err := p.tests()
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			for _, name := range fuzzFunctions(file) {
				targets = append(targets, fuzzTarget{p.ImportPath, name})
			}
		}
	}
	return targets, nil
}

// fuzzFunctions returns the names of the fuzz functions of a file.
func fuzzFunctions(file *ast.File) []string {
	var names []string
	for _, declaration := range file.Decls {
		function, ok := declaration.(*ast.FuncDecl)
		if ok && function.Recv == nil && isFuzzName(function.Name.Name) && takesF(function.Type.Params) {
			names = append(names, function.Name.Name)
		}
	}
	return names
}

// isFuzzName follows the rule of the go command: after Fuzz comes no lower
// case letter.
func isFuzzName(name string) bool {
	rest, found := strings.CutPrefix(name, "Fuzz")
	first, _ := utf8.DecodeRuneInString(rest)
	return found && !unicode.IsLower(first)
}

// takesF tells whether the only parameter is a *testing.F.
func takesF(parameters *ast.FieldList) bool {
	if parameters.NumFields() != 1 {
		return false
	}
	pointer, ok := parameters.List[0].Type.(*ast.StarExpr)
	if !ok {
		return false
	}
	selector, ok := pointer.X.(*ast.SelectorExpr)
	return ok && selector.Sel.Name == "F"
}
