package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
)

func TestDispatch(t *testing.T) {
	tests := []struct {
		name    string
		args    []string
		want    int
		out     string // a part of what is printed
		errOut  string
		silence bool // nothing on the standard output
	}{
		{"help", []string{"help"}, exitDone, "usage: go run ./cmd/dev COMMAND", "", false},
		{"help as a flag", []string{"--help"}, exitDone, "test [-quick]", "", false},
		{"help on a command", []string{"test", "-h"}, exitDone, "usage:", "", false},
		{"nothing", nil, exitUsage, "", "usage:", true},
		{"unknown command", []string{"deploy"}, exitUsage, "", `"deploy" is not a command`, true},
		{"unknown flag", []string{"test", "-slow"}, exitUsage, "", "usage: go run ./cmd/dev test [-quick]", true},
		{"argument too many", []string{"test", "twice"}, exitUsage, "", "dev test: it takes no argument", true},
		{"two files", []string{"run", "a", "b"}, exitUsage, "", "one file at a time", true},
		{"count of nothing", []string{"bench", "-count", "0"}, exitUsage, "", "1 or more", true},
		{"count that is no number", []string{"bench", "-count", "few"}, exitUsage, "", "invalid value", true},
		{"file that is not there", []string{"run", "no-such.clampline"}, exitFailed, "", "no-such.clampline", true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var out, errOut bytes.Buffer
			if got := dispatch(context.Background(), test.args, &out, &errOut); got != test.want {
				t.Errorf("got exit code %d, want %d", got, test.want)
			}
			if !strings.Contains(out.String(), test.out) || test.silence && out.Len() > 0 {
				t.Errorf("got output %q, want %q in it", out.String(), test.out)
			}
			if !strings.Contains(errOut.String(), test.errOut) {
				t.Errorf("got errors %q, want %q in them", errOut.String(), test.errOut)
			}
		})
	}
}
