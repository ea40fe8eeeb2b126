package main

import (
	"context"
	"flag"
	"time"
)

// runTests runs every check, and says at the end whether all are good.
func runTests(ctx context.Context, w *workshop, args []string) error {
	quick := false
	rest, err := parseFlags(args, func(flags *flag.FlagSet) {
		flags.BoolVar(&quick, "quick", false, "")
	})
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return usageError("it takes no argument but -quick")
	}
	began := time.Now()
	if err := w.setUp(ctx, needOf(quick)); err != nil {
		return err
	}
	w.sayBuilding()
	if err := w.runStages(w.stages(ctx, quick)); err != nil {
		return err
	}
	w.say("all checks are good, %s", elapsed(time.Since(began)))
	return nil
}

func needOf(quick bool) need {
	if quick {
		return toBuild
	}
	return toTest
}

// mostBranches is the greatest cyclomatic complexity of a function of the product.
const mostBranches = "15"

// notCounted are the files that mostBranches does not count for: tests.
const notCounted = `_test\.go$`

// longest is how long the tests of a package may take on a slow machine; the analysis
// takes half of the usual ten minutes on a fast one.
const longest = "-timeout=20m"

// stages returns the checks, the cheap ones first.
func (w *workshop) stages(ctx context.Context, quick bool) []stage {
	call := func(args ...string) func() error {
		return func() error { return w.run(ctx, "go", args...) }
	}
	stages := []stage{
		{{"gofmt", w.checkFormat}, {"build", call("build", "./...")}},
		{{"vet", call("vet", "./...")}, {"staticcheck", call("tool", "staticcheck", "./...")},
			{"gocyclo", call("tool", "gocyclo", "-over", mostBranches, "-ignore", notCounted, ".")}},
		{{"test", call("test", longest, "./...")}},
	}
	if quick {
		return stages
	}
	return append(stages,
		stage{{"race", func() error { return w.checkRaces(ctx) }}},
		stage{{"fuzz", func() error { return w.checkFuzz(ctx, func(int) time.Duration { return fuzzTime }) }}},
		stage{{"window", func() error { return w.checkWindow(ctx, "Window") }}},
	)
}
