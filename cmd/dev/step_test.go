package main

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func TestRunStages(t *testing.T) {
	var ran []string
	good := func(name string) check {
		return check{name, func() error { ran = append(ran, name); return nil }}
	}
	bad := func(name string) check {
		return check{name, func() error { ran = append(ran, name); return errors.New("it broke") }}
	}
	tests := []struct {
		name   string
		stages []stage
		ran    []string
		want   string // a part of the error; empty if there is none
	}{
		{"all good", []stage{{good("a"), good("b")}, {good("c")}}, []string{"a", "b", "c"}, ""},
		{"a stage runs to its end", []stage{{bad("a"), good("b"), bad("c")}, {good("d")}}, []string{"a", "b", "c"}, "a and c failed"},
		{"later stage", []stage{{good("a")}, {bad("b")}, {good("c")}}, []string{"a", "b"}, "b failed"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			ran = nil
			var out bytes.Buffer
			err := (&workshop{out: &out}).runStages(test.stages)
			if diff := cmp.Diff(ran, test.ran); diff != "" {
				t.Errorf("checks run (-got +want):\n%s", diff)
			}
			if (err == nil) != (test.want == "") || err != nil && !strings.Contains(err.Error(), test.want) {
				t.Errorf("got error %v, want %q", err, test.want)
			}
			if failed := strings.Contains(out.String(), "FAILED"); failed != (test.want != "") {
				t.Errorf("got output %q, want a failure named: %v", out.String(), test.want != "")
			}
		})
	}
}

func TestElapsed(t *testing.T) {
	tests := []struct {
		name string
		in   time.Duration
		want string
	}{
		{"instant", 0, "0.0 s"},
		{"seconds", 12340 * time.Millisecond, "12.3 s"},
		{"a minute", time.Minute, "1 min 0 s"},
		{"minutes", 4*time.Minute + 11600*time.Millisecond, "4 min 12 s"},
		{"almost a minute more", 119900 * time.Millisecond, "2 min 0 s"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := elapsed(test.in); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}
