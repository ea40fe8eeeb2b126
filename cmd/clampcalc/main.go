// Command clampcalc does the work of Clampline on a file without a window:
// findings, surge voltages, drawings, decks for a circuit simulator. Run
// "clampcalc help" for its commands.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// Exit statuses.
const (
	exitDone        = 0
	exitFindings    = 1   // check: a finding is an error; crosscheck: a number differs
	exitUsage       = 2   // the command line is wrong
	exitFile        = 3   // a file, a circuit or the simulator stood in the way
	exitInterrupted = 130 // as shells have it
)

// failure is an error with the exit status that it leads to.
type failure struct {
	status int
	err    error
}

func (f failure) Error() string { return f.err.Error() }
func (f failure) Unwrap() error { return f.err }

func usageError(format string, args ...any) error {
	return failure{exitUsage, fmt.Errorf(format, args...)}
}

func fileError(err error) error { return failure{exitFile, err} }

// run carries out one command line and returns the exit status.
func run(ctx context.Context, args []string, out, errs io.Writer) int {
	shown, told := &visible{to: out}, &visible{to: errs}
	defer shown.end()
	defer told.end()
	return carryOut(ctx, args, shown, told)
}

func carryOut(ctx context.Context, args []string, out, errs io.Writer) int {
	screen, complaints := &gate{to: out}, &gate{to: errs}
	root := rootCommand(screen, complaints)
	root.SetArgs(args)
	err := untilInterrupted(ctx, func() error { return root.ExecuteContext(ctx) })
	screen.close()
	complaints.close()
	if err == nil {
		return exitDone
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(errs, "clampcalc: interrupted")
		return exitInterrupted
	}
	status := exitUsage
	if f, ok := err.(failure); ok {
		status = f.status
	}
	if message := err.Error(); message != "" {
		fmt.Fprintf(errs, "clampcalc: %s\n", message)
	}
	if status == exitUsage {
		fmt.Fprintln(errs, `Run "clampcalc help" for the commands.`)
	}
	return status
}
