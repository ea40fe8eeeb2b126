package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// The tests of a package count as having noticed a change where they take this
// many times as long as without it, and the grace besides.
const (
	mutationSlower = 5
	mutationGrace  = 20 * time.Second
)

// mutating is what the command line asks for.
type mutating struct {
	count int
	seed  uint64
	tests string // pattern of those that are run; empty for all
	files string // part of the names of those that are changed; empty for all
}

// tally is what became of the changes of one package.
type tally struct {
	killed   int
	survived []mutation
}

func (t tally) percent() float64 {
	return 100 * float64(t.killed) / float64(max(1, t.killed+len(t.survived)))
}

// runMutations changes one operator, number or condition of a package at a time and
// runs its tests on that: those that fail have noticed. The sources are left
// alone: the go command is given each change as an overlay.
func runMutations(ctx context.Context, w *workshop, args []string) error {
	how := mutating{count: 30, seed: 1}
	only, err := parseFlags(args, func(flags *flag.FlagSet) {
		flags.IntVar(&how.count, "count", how.count, "")
		flags.Uint64Var(&how.seed, "seed", how.seed, "")
		flags.StringVar(&how.tests, "run", "", "")
		flags.StringVar(&how.files, "file", "", "")
	})
	if err != nil {
		return err
	}
	packages, err := w.list(ctx)
	if err != nil {
		return err
	}
	for _, p := range packages {
		if !isMutated(p, only) {
			continue
		}
		t, err := w.mutatePackage(ctx, p, how)
		if err != nil {
			return err
		}
		w.say("%s: %.0f %% of %d noticed", p.ImportPath, t.percent(), t.killed+len(t.survived))
	}
	return nil
}

// isMutated reports whether a package is one of those named, or where none is, one
// of the model and the analysis with tests of its own.
func isMutated(p listed, only []string) bool {
	name := strings.TrimPrefix(p.ImportPath, moduleName+"/")
	for _, wanted := range only {
		if name == strings.Trim(wanted, "./") {
			return true
		}
	}
	own := strings.HasPrefix(name, "analysis") || strings.HasPrefix(name, "diagram")
	return len(only) == 0 && own && len(p.TestGoFiles)+len(p.XTestGoFiles) > 0
}

// mutatePackage tries a sample of the changes, the same for the same seed, and
// tells those that no test notices as it comes to them.
func (w *workshop) mutatePackage(ctx context.Context, p listed, how mutating) (tally, error) {
	files := slices.DeleteFunc(slices.Clone(p.GoFiles), func(name string) bool { return !strings.Contains(name, how.files) })
	all, err := mutationsOf(p.Dir, files)
	if err != nil {
		return tally{}, err
	}
	most, err := w.testTime(ctx, p, how)
	if err != nil {
		return tally{}, err
	}
	rng := rand.New(rand.NewPCG(how.seed, uint64(len(p.ImportPath))))
	rng.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	var out tally
	for _, m := range all {
		if out.killed+len(out.survived) == how.count {
			break
		}
		noticed, valid, err := w.notices(ctx, p, m, how.tests, most)
		switch {
		case err != nil:
			return out, err
		case !valid:
		case noticed:
			out.killed++
		default:
			out.survived = append(out.survived, m)
			w.say("  survived %s", strings.TrimPrefix(m.String(), w.root+string(filepath.Separator)))
		}
	}
	return out, nil
}

// testTime runs the tests of a package as it stands, which must pass, and returns
// how long they may take with a change.
func (w *workshop) testTime(ctx context.Context, p listed, how mutating) (time.Duration, error) {
	began := time.Now()
	err := w.runQuietly(ctx, []string{"go", "test", "-vet=off", "-count", "1", "-run", how.tests, p.ImportPath})
	return mutationSlower*time.Since(began).Round(time.Second) + mutationGrace, err
}

// notices runs the tests of a package on a change, without the vet that would
// take its look for a mistake. A change that does not compile is not valid.
func (w *workshop) notices(ctx context.Context, p listed, m mutation, tests string, most time.Duration) (noticed, valid bool, err error) {
	folder, err := os.MkdirTemp("", "mutation")
	if err != nil {
		return false, false, err
	}
	defer os.RemoveAll(folder)
	overlay, err := writeOverlay(folder, m)
	if err != nil {
		return false, false, err
	}
	if !w.succeeds(ctx, "go", "build", "-overlay", overlay, p.ImportPath) {
		return false, false, ctx.Err()
	}
	good := w.succeeds(ctx, "go", "test", "-overlay", overlay, "-vet=off", "-failfast", "-run", tests, "-timeout", fmt.Sprint(most), p.ImportPath)
	return !good, true, ctx.Err()
}

// writeOverlay writes the changed file and what tells the go command of it.
func writeOverlay(folder string, m mutation) (path string, err error) {
	text, err := os.ReadFile(m.file)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(folder, filepath.Base(m.file))
	if err := os.WriteFile(changed, []byte(m.applied(string(text))), 0o600); err != nil {
		return "", err
	}
	data, err := json.Marshal(map[string]map[string]string{"Replace": {m.file: changed}})
	if err != nil {
		return "", err
	}
	path = filepath.Join(folder, "overlay.json")
	return path, os.WriteFile(path, data, 0o600)
}
