package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"syscall"
)

// Exit codes of the program.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2
)

// command is one word that may follow the name of the program.
type command struct {
	name      string
	arguments string
	summary   string
	run       func(ctx context.Context, w *workshop, args []string) error
}

// usageError is a mistake in the command line.
type usageError string

func (e usageError) Error() string { return string(e) }

func commands() []command {
	return []command{
		{"run", "[FILE]", "build the editor and open FILE, or the demo sheet", runEditor},
		{"test", "[-quick]", "run every check; -quick leaves out races, fuzzing and the real window", runTests},
		{"bench", "[-count N] [PACKAGE...]", "measure speed and compare it with the run before", runBenchmarks},
		{"mutate", "[-count N] [-seed N] [-run TESTS] [-file PART] [PACKAGE...]", "change the sources in small ways and tell which changes no test notices", runMutations},
		{"soak", "[-hours N]", "try for N hours to break it: sheets, kills, fuzz, window; 1 if not said", runSoak},
		{"help", "", "say this", nil},
	}
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := dispatch(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// dispatch does what the command line says and returns the exit code.
func dispatch(ctx context.Context, args []string, out, errOut io.Writer) int {
	if len(args) == 0 {
		writeHelp(errOut)
		return exitUsage
	}
	if isHelp(args[0]) {
		writeHelp(out)
		return exitDone
	}
	for _, c := range commands() {
		if c.name == args[0] {
			return perform(ctx, c, args[1:], out, errOut)
		}
	}
	fmt.Fprintf(errOut, "dev: %q is not a command\n\n", args[0])
	writeHelp(errOut)
	return exitUsage
}

func isHelp(word string) bool {
	return word == "help" || word == "-h" || word == "-help" || word == "--help"
}

func perform(ctx context.Context, c command, args []string, out, errOut io.Writer) int {
	w, err := newWorkshop(out, errOut)
	if err == nil {
		w.yes = slices.Contains(args, "-yes")
		err = c.run(ctx, w, slices.DeleteFunc(slices.Clone(args), func(arg string) bool { return arg == "-yes" }))
	}
	var usage usageError
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, flag.ErrHelp):
		writeHelp(out)
		return exitDone
	case errors.As(err, &usage):
		fmt.Fprintf(errOut, "dev %s: %v\nusage: go run ./cmd/dev %s %s\n", c.name, err, c.name, c.arguments)
		return exitUsage
	}
	fmt.Fprintf(errOut, "dev %s: %v\n", c.name, err)
	return exitFailed
}

func writeHelp(to io.Writer) {
	fmt.Fprintln(to, "usage: go run ./cmd/dev COMMAND")
	for _, c := range commands() {
		fmt.Fprintf(to, "  %-42s %s\n", c.name+" "+c.arguments, c.summary)
	}
	fmt.Fprintln(to, "With -yes, what the system lacks is installed without asking.")
}

// parseFlags reads the flags that define declares from args and returns the
// arguments after them.
func parseFlags(args []string, define func(*flag.FlagSet)) ([]string, error) {
	flags := flag.NewFlagSet("", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	define(flags)
	err := flags.Parse(args)
	if err != nil && !errors.Is(err, flag.ErrHelp) {
		return nil, usageError(err.Error())
	}
	return flags.Args(), err
}
