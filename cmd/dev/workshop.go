package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

const moduleName = "clampline"

// endingGrace is how long an interrupted program may take to end by itself.
const endingGrace = 10 * time.Second

// workshop is what every command works with.
type workshop struct {
	root    string // the folder of go.mod
	start   string // the folder the command was typed in
	system  system
	environ []string // of every program started
	yes     bool     // install without asking
	in      io.Reader
	out     io.Writer
	errOut  io.Writer
}

func newWorkshop(out, errOut io.Writer) (*workshop, error) {
	start, err := os.Getwd()
	if err != nil {
		return nil, err
	}
	root, err := findRoot(start)
	if err != nil {
		return nil, err
	}
	return &workshop{
		root:    root,
		start:   start,
		system:  thisSystem(),
		environ: append(os.Environ(), "CGO_ENABLED=1"),
		in:      os.Stdin,
		out:     out,
		errOut:  errOut,
	}, nil
}

// findRoot returns the folder of the module that holds folder.
func findRoot(folder string) (string, error) {
	for at := folder; ; at = filepath.Dir(at) {
		text, err := os.ReadFile(filepath.Join(at, "go.mod"))
		if line, _, _ := strings.Cut(string(text), "\n"); err == nil && strings.TrimSpace(line) == "module "+moduleName {
			return at, nil
		}
		if at == filepath.Dir(at) {
			return "", fmt.Errorf("%s is not inside the module %s; change to its folder first", folder, moduleName)
		}
	}
}

// say prints one line for the person at the terminal.
func (w *workshop) say(format string, values ...any) {
	fmt.Fprintf(w.out, format+"\n", values...)
}

// program prepares a call of name in the root of the module.
func (w *workshop) program(ctx context.Context, name string, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Dir = w.root
	cmd.Env = w.environ
	cmd.Stdout = w.out
	cmd.Stderr = w.errOut
	cmd.Cancel = func() error { return cmd.Process.Signal(os.Interrupt) }
	cmd.WaitDelay = endingGrace
	return cmd
}

// run calls name and shows what it prints.
func (w *workshop) run(ctx context.Context, name string, args ...string) error {
	return explain(w.program(ctx, name, args...).Run(), name, args)
}

// runQuietly makes a call that prints much about little; it shows that only if
// the call fails.
func (w *workshop) runQuietly(ctx context.Context, call []string) error {
	cmd := w.program(ctx, call[0], call[1:]...)
	var text bytes.Buffer
	cmd.Stdout, cmd.Stderr = &text, &text
	err := cmd.Run()
	if err != nil {
		w.say("%s", bytes.TrimSpace(text.Bytes()))
	}
	return explain(err, call[0], call[1:])
}

// capture calls name and returns what it prints on its standard output.
func (w *workshop) capture(ctx context.Context, name string, args ...string) (string, error) {
	cmd := w.program(ctx, name, args...)
	var text strings.Builder
	cmd.Stdout = &text
	err := cmd.Run()
	return text.String(), explain(err, name, args)
}

// succeeds tells whether name can be called and exits with 0; it shows nothing.
func (w *workshop) succeeds(ctx context.Context, name string, args ...string) bool {
	cmd := w.program(ctx, name, args...)
	cmd.Stdout, cmd.Stderr = nil, nil
	return cmd.Run() == nil
}

func explain(err error, name string, args []string) error {
	if err == nil {
		return nil
	}
	if errors.Is(err, exec.ErrNotFound) {
		return fmt.Errorf("%s is not installed or not in PATH", name)
	}
	return fmt.Errorf("%s: %w", strings.Join(append([]string{name}, args...), " "), err)
}
