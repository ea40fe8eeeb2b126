package main

import (
	"fmt"
	"strings"
	"time"
)

// check is one thing that must hold for the program to be good.
type check struct {
	name string
	run  func() error
}

// stage is a list of checks that all run, whichever of them fail. The stage
// after it starts only if none did.
type stage []check

// step runs do between a line that names it and a line that says how it ended.
func (w *workshop) step(name string, do func() error) error {
	w.say("== %s", name)
	began := time.Now()
	err := do()
	if err != nil {
		w.say("== %s FAILED after %s: %v", name, elapsed(time.Since(began)), err)
		return err
	}
	w.say("== %s: good, %s", name, elapsed(time.Since(began)))
	return nil
}

// runStages runs the stages until one has a failure.
func (w *workshop) runStages(stages []stage) error {
	for _, s := range stages {
		var failed []string
		for _, c := range s {
			if w.step(c.name, c.run) != nil {
				failed = append(failed, c.name)
			}
		}
		if len(failed) > 0 {
			return fmt.Errorf("%s failed; what went wrong is printed above", strings.Join(failed, " and "))
		}
	}
	return nil
}

// elapsed writes a duration as a person reads it: "0.3 s", "4 min 12 s".
func elapsed(d time.Duration) string {
	if d < time.Minute {
		return fmt.Sprintf("%.1f s", d.Seconds())
	}
	seconds := int(d.Round(time.Second).Seconds())
	return fmt.Sprintf("%d min %d s", seconds/60, seconds%60)
}
