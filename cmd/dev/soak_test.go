package main

import (
	"errors"
	"testing"
)

func TestSoakRefuses(t *testing.T) {
	for _, args := range [][]string{{"-hours", "0"}, {"-hours", "-1"}, {"-hours", "2000"}, {"-hours", "NaN"}, {"-hours", "six"}, {"now"}} {
		var usage usageError
		if err := runSoak(t.Context(), &workshop{}, args); !errors.As(err, &usage) {
			t.Errorf("%q: got %v, want a mistake in the command line", args, err)
		}
	}
}
