package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestFindRoot(t *testing.T) {
	top := t.TempDir()
	deep := filepath.Join(top, "ours", "cmd", "dev")
	other := filepath.Join(top, "other")
	for _, folder := range []string{deep, other} {
		if err := os.MkdirAll(folder, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	writeFile(t, filepath.Join(top, "ours", "go.mod"), "module clampline\r\n\ngo 1.26.0\n")
	writeFile(t, filepath.Join(other, "go.mod"), "module clamplineish\n")

	tests := []struct {
		name   string
		folder string
		want   string // empty if there is none
	}{
		{"below", deep, filepath.Join(top, "ours")},
		{"at it", filepath.Join(top, "ours"), filepath.Join(top, "ours")},
		{"another module", other, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := findRoot(test.folder)
			if got != test.want || (err == nil) != (test.want != "") {
				t.Errorf("got %q, %v, want %q", got, err, test.want)
			}
		})
	}
}

func TestFileToOpen(t *testing.T) {
	start := t.TempDir()
	here := filepath.Join(start, "barn.clampline")
	writeFile(t, here, "{}")
	w := &workshop{root: filepath.FromSlash("/checkout"), start: start}

	tests := []struct {
		name string
		args []string
		want string // empty if it is refused
	}{
		{"demo", nil, "-demo"},
		{"beside the person", []string{"barn.clampline"}, here},
		{"whole path", []string{here}, here},
		{"not there", []string{"gone.clampline"}, ""},
		{"a flag", []string{"-fast"}, ""},
		{"empty", []string{""}, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := w.fileToOpen(test.args)
			if (err == nil) != (test.want != "") || err == nil && got != test.want {
				t.Errorf("got %q, %v, want %q", got, err, test.want)
			}
		})
	}
}

func writeFile(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// What takes administrator's rights is done only for a plain yes.
func TestAgreed(t *testing.T) {
	for answer, want := range map[string]bool{"y\n": true, "Yes\n": true, "\n": false, "n\n": false, "": false, "yesterday\n": false} {
		var out strings.Builder
		w := &workshop{in: strings.NewReader(answer), out: &out}
		if got := w.agreed([]string{"sudo"}, []string{"apt-get", "install", "xvfb"}); got != want {
			t.Errorf("%q: got %v", answer, got)
		}
		if !strings.Contains(out.String(), "sudo apt-get install xvfb") {
			t.Errorf("it does not say what it would do: %q", out.String())
		}
	}
}
