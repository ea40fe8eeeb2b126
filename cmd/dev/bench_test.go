package main

import (
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestBenchArguments(t *testing.T) {
	got := benchArguments([]string{"./diagram/..."}, 3)
	want := []string{"test", "-run=^$", "-bench=.", "-benchmem", "-count=3", "./diagram/..."}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("arguments (-got +want):\n%s", diff)
	}
}

func TestBenchFolder(t *testing.T) {
	tests := []struct {
		name     string
		packages []string
		want     string
	}{
		{"all", []string{"./..."}, "all"},
		{"one", []string{"./diagram"}, "diagram"},
		{"one and those below", []string{"./diagram/..."}, "diagram-all"},
		{"order does not matter", []string{"./b", "./a/c"}, "a-c+b"},
		{"import path", []string{"clampline/diagram/geom"}, "clampline-diagram-geom"},
		{"stays in its place", []string{"../../x"}, "x"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := benchFolder(test.packages); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

func TestLastFile(t *testing.T) {
	folder := t.TempDir()
	if got, err := lastFile(folder); got != "" || err != nil {
		t.Errorf("got %q, %v in an empty folder, want nothing", got, err)
	}
	for _, name := range []string{"20260102-030405.txt", "20260103-000000.txt", "20260104-000000.txt.partial"} {
		writeFile(t, filepath.Join(folder, name), "")
	}
	want := filepath.Join(folder, "20260103-000000.txt")
	if got, err := lastFile(folder); got != want || err != nil {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
}
