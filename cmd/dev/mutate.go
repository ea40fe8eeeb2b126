package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// The tests of a package count as having noticed a change where they take this
// many times as long as without it, and the grace besides.
const (
	mutationSlower = 5
	mutationGrace  = 20 * time.Second
)

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
	count, seed := 30, uint64(1)
	only, err := parseFlags(args, func(flags *flag.FlagSet) {
		flags.IntVar(&count, "count", count, "")
		flags.Uint64Var(&seed, "seed", seed, "")
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
		t, err := w.mutatePackage(ctx, p, count, seed)
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
func (w *workshop) mutatePackage(ctx context.Context, p listed, count int, seed uint64) (tally, error) {
	all, err := mutationsOf(p.Dir, p.GoFiles)
	if err != nil {
		return tally{}, err
	}
	most, err := w.testTime(ctx, p)
	if err != nil {
		return tally{}, err
	}
	rng := rand.New(rand.NewPCG(seed, uint64(len(p.ImportPath))))
	rng.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	var out tally
	for _, m := range all {
		if out.killed+len(out.survived) == count {
			break
		}
		noticed, valid, err := w.notices(ctx, p, m, most)
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
func (w *workshop) testTime(ctx context.Context, p listed) (time.Duration, error) {
	began := time.Now()
	err := w.runQuietly(ctx, []string{"go", "test", "-vet=off", "-count", "1", p.ImportPath})
	return mutationSlower*time.Since(began).Round(time.Second) + mutationGrace, err
}

// notices runs the tests of a package on a change, without the vet that would
// take its look for a mistake. A change that does not compile is not valid.
func (w *workshop) notices(ctx context.Context, p listed, m mutation, most time.Duration) (noticed, valid bool, err error) {
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
	good := w.succeeds(ctx, "go", "test", "-overlay", overlay, "-vet=off", "-failfast", "-timeout", fmt.Sprint(most), p.ImportPath)
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
