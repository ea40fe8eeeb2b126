package main

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestMissing(t *testing.T) {
	tests := []struct {
		name      string
		names     []string
		installed []string
		want      []string
	}{
		{"all there", []string{"gcc", "xvfb"}, []string{"xvfb", "gcc"}, nil},
		{"none there", []string{"gcc", "xvfb"}, nil, []string{"gcc", "xvfb"}},
		{"order kept", []string{"c", "a", "b"}, []string{"a"}, []string{"c", "b"}},
		{"nothing needed", nil, nil, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := missing(test.names, func(name string) bool { return slices.Contains(test.installed, name) })
			if diff := cmp.Diff(got, test.want); diff != "" {
				t.Errorf("missing (-got +want):\n%s", diff)
			}
		})
	}
}

func TestManagers(t *testing.T) {
	for _, f := range []family{debianFamily, fedoraFamily, archFamily} {
		m, ok := managerOf(f)
		if !ok || len(m.query) == 0 || len(m.install) == 0 {
			t.Errorf("family %d has no complete manager: %+v", f, m)
		}
		if build := m.packages(toBuild); slices.ContainsFunc(m.forTest, func(name string) bool { return slices.Contains(build, name) }) {
			t.Errorf("family %d builds with packages for tests: %v", f, build)
		}
		all := m.packages(toTest)
		if got, want := len(all), len(m.forBuild)+len(m.forTest); got != want {
			t.Errorf("family %d tests with %d packages, want %d", f, got, want)
		}
		slices.Sort(all)
		if got, want := len(slices.Compact(all)), len(m.forBuild)+len(m.forTest); got != want {
			t.Errorf("family %d names a package twice: %v", f, all)
		}
	}
	for _, f := range []family{otherFamily, macFamily, windowsFamily} {
		if _, ok := managerOf(f); ok {
			t.Errorf("family %d has a manager, want none", f)
		}
	}
}

func TestTyped(t *testing.T) {
	tests := []struct {
		name  string
		calls [][]string
		want  string
	}{
		{"lists first", [][]string{{"apt-get", "update"}, {"apt-get", "install", "gcc"}},
			"sudo apt-get update && sudo apt-get install gcc"},
		{"no lists", [][]string{nil, {"dnf", "install", "gcc"}}, "sudo dnf install gcc"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := typed(test.calls...); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}
