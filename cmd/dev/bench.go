package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// benchCount is how often each benchmark runs: the fewest runs from which
// benchstat gives a range at 95 % confidence.
const benchCount = 6

// runBenchmarks measures the packages named, all if none is, keeps the numbers
// and compares them with those of the run before of the same packages.
func runBenchmarks(ctx context.Context, w *workshop, args []string) error {
	count := benchCount
	packages, err := parseFlags(args, func(flags *flag.FlagSet) {
		flags.IntVar(&count, "count", benchCount, "")
	})
	if err != nil {
		return err
	}
	if count < 1 {
		return usageError("-count must be 1 or more")
	}
	if err := w.setUp(ctx, toTest); err != nil {
		return err
	}
	if len(packages) == 0 {
		packages = []string{"./..."}
	}
	return w.measureAndCompare(ctx, packages, count)
}

func (w *workshop) measureAndCompare(ctx context.Context, packages []string, count int) error {
	folder, err := cacheFolder(filepath.Join("bench", benchFolder(packages)))
	if err != nil {
		return err
	}
	before, err := lastFile(folder)
	if err != nil {
		return err
	}
	now := filepath.Join(folder, time.Now().UTC().Format("20060102-150405")+".txt")
	w.sayBuilding()
	if err := w.step("bench", func() error { return w.measure(ctx, packages, count, now) }); err != nil {
		return err
	}
	w.say("kept in %s", now)
	if before == "" {
		w.say("there is no run before to compare with")
		return nil
	}
	return w.run(ctx, "go", "tool", "benchstat", "before="+before, "now="+now)
}

// measure writes the numbers to the file at path once all benchmarks have run,
// so that a run that was broken off is never compared with.
func (w *workshop) measure(ctx context.Context, packages []string, count int, path string) error {
	partial := path + ".partial"
	file, err := os.Create(partial)
	if err != nil {
		return err
	}
	defer os.Remove(partial)
	args := benchArguments(packages, count)
	cmd := w.program(ctx, "go", args...)
	var text bytes.Buffer
	cmd.Stdout = io.MultiWriter(w.out, file, &text)
	if err := errors.Join(explain(cmd.Run(), "go", args), file.Close()); err != nil {
		return err
	}
	if !bytes.Contains(text.Bytes(), []byte("\nBenchmark")) {
		return fmt.Errorf("no benchmark in %s", strings.Join(packages, " "))
	}
	return os.Rename(partial, path)
}

func benchArguments(packages []string, count int) []string {
	return append([]string{"test", "-run=^$", "-bench=.", "-benchmem", "-count=" + strconv.Itoa(count)}, packages...)
}

// benchFolder names the folder of the runs of the same packages.
func benchFolder(packages []string) string {
	names := slices.Clone(packages)
	for i, name := range names {
		name = strings.ReplaceAll(filepath.ToSlash(name), "...", "all")
		names[i] = strings.Trim(strings.NewReplacer("/", "-", ".", "-", ":", "-").Replace(name), "-")
	}
	slices.Sort(names)
	return strings.Join(names, "+")
}

// lastFile returns the path of the newest run in folder, or nothing. Names are
// times, so that the last name is the newest.
func lastFile(folder string) (string, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.txt"))
	if err != nil || len(files) == 0 {
		return "", err
	}
	return slices.Max(files), nil
}
