package file

import (
	"errors"
	"strings"
	"testing"
)

func TestCurrentIsTheVersionAfterTheLastStep(t *testing.T) {
	if got := len(steps()) + 1; got != Current {
		t.Errorf("the steps lead to version %d, and Current is %d", got, Current)
	}
}

// trial are steps that write down that they ran.
func trial(fails int) []step {
	mark := func(letter string) step {
		return func(top map[string]any) error {
			text, _ := top["ran"].(string)
			top["ran"] = text + letter
			return nil
		}
	}
	out := []step{mark("a"), mark("b"), mark("c")}
	if fails >= 0 {
		out[fails] = func(map[string]any) error { return errors.New("no wiring") }
	}
	return out
}

func TestMigrateRunsTheStepsThatAreLeft(t *testing.T) {
	for version, want := range map[int]string{1: "abc", 2: "bc", 3: "c", 4: ""} {
		top := map[string]any{}
		if err := migrate(top, version, trial(-1)); err != nil {
			t.Fatal(err)
		}
		if got, _ := top["ran"].(string); got != want {
			t.Errorf("from version %d: got steps %q, want %q", version, got, want)
		}
	}
}

func TestMigrateSaysWhichStepFailed(t *testing.T) {
	top := map[string]any{}
	err := migrate(top, 1, trial(1))
	if err == nil || !strings.Contains(err.Error(), "upgrade from version 2 to 3: no wiring") {
		t.Errorf("got %v", err)
	}
	if top["ran"] != "a" {
		t.Errorf("got steps %v, want the first alone", top["ran"])
	}
}
