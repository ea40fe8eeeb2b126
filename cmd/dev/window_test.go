package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestWindowEnviron(t *testing.T) {
	base := []string{
		"PATH=/bin", "HOME=/home/me", "DISPLAY=:0", "WAYLAND_DISPLAY=wayland-0", "XAUTHORITY=/home/me/.Xauthority",
		"LC_ALL=C", "LANGUAGE=fr", "FYNE_THEME=dark", "XDG_CONFIG_DIRS=/etc/other", "GOFLAGS=-mod=mod", "CI=true",
	}
	got := windowEnviron(base, map[string]string{"HOME": "/new", "GOCACHE": "/home/me/.cache/go-build"})
	want := []string{"PATH=/bin", "GOFLAGS=-mod=mod", "CI=true", "GOCACHE=/home/me/.cache/go-build", "HOME=/new"}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("environment (-got +want):\n%s", diff)
	}
}

func TestPersonalSettingsStayAtHome(t *testing.T) {
	home := t.TempDir()
	settings := personalSettings(home)
	elsewhere := filepath.Join(t.TempDir(), "kept")
	settings["GOCACHE"] = elsewhere
	if err := makeFolders(home, settings); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_RUNTIME_DIR"} {
		if info, err := os.Stat(settings[name]); err != nil || !info.IsDir() {
			t.Errorf("%s is %q, want a folder that is there", name, settings[name])
		}
	}
	if _, err := os.Stat(elsewhere); err == nil {
		t.Errorf("made %s, which is not below the new home", elsewhere)
	}
}

func TestWindowTested(t *testing.T) {
	tests := []struct {
		name   string
		output string
		want   bool
	}{
		{"one passed", "=== RUN   TestWindow\n--- PASS: TestWindow (3.10s)\nPASS\nok  \tclampline/cmd/clampline\t3.2s\n", true},
		{"named after what it does", "--- PASS: TestDragInWindow (0.10s)\n", true},
		{"left out", "--- SKIP: TestWindow (0.00s)\nPASS\nok  \tclampline/cmd/clampline\t0.2s\n", false},
		{"none of that name", "testing: warning: no tests to run\nPASS\nok  \tclampline/cmd/clampline\t0.2s [no tests to run]\n", false},
		{"no tests at all", "?   \tclampline/cmd/clampline\t[no test files]\n", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := windowTested(test.output); got != test.want {
				t.Errorf("got %v, want %v", got, test.want)
			}
		})
	}
}
