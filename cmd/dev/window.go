package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// checkWindow runs the tests that drive the real window, on a screen and with
// settings of their own, so that nothing of the person's desktop is touched. The
// pattern tells which of them; more is added to what they find in the environment.
func (w *workshop) checkWindow(ctx context.Context, pattern string, more ...string) error {
	if w.system.goos != "linux" {
		w.say("left out: the virtual screen takes Linux")
		return nil
	}
	artifacts, err := artifactFolder()
	if err != nil {
		return err
	}
	w.say("pictures and logs go to %s", artifacts)
	home, err := os.MkdirTemp("", "clampline-home-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(home)
	environ, err := w.windowSettings(ctx, home, artifacts)
	if err != nil {
		return err
	}
	screen, err := startDisplay(ctx, environ, artifacts)
	if err != nil {
		return err
	}
	defer screen.end()
	return w.testWindow(ctx, pattern, append(screen.environ, more...))
}

// artifactFolder returns where pictures of the window go: the folder that the
// environment names, or a new one.
func artifactFolder() (string, error) {
	folder := os.Getenv("CLAMPLINE_ARTIFACTS")
	if folder == "" {
		return os.MkdirTemp("", "clampline-window-")
	}
	folder, err := filepath.Abs(folder)
	if err != nil {
		return "", err
	}
	return folder, os.MkdirAll(folder, 0o755)
}

func (w *workshop) testWindow(ctx context.Context, pattern string, environ []string) error {
	args := []string{"test", "./cmd/clampline", "-run=" + pattern, "-count=1", "-timeout=0", "-v"}
	cmd := w.program(ctx, "go", args...)
	cmd.Env = environ
	var text bytes.Buffer
	cmd.Stdout = io.MultiWriter(w.out, &text)
	if err := cmd.Run(); err != nil {
		return explain(err, "go", args)
	}
	if !windowTested(text.String()) {
		return errors.New("no window test ran to its end in cmd/clampline")
	}
	return nil
}

// windowTested tells from the output of go test -v whether a window test ran:
// one that was skipped, or renamed out of reach, must not pass for good.
func windowTested(output string) bool {
	for line := range strings.Lines(output) {
		name, found := strings.CutPrefix(line, "--- PASS: ")
		if found && strings.Contains(name, "Window") {
			return true
		}
	}
	return false
}

// windowSettings returns the environment of the window test. The go command
// keeps its caches and settings, which it would look for in the new home.
func (w *workshop) windowSettings(ctx context.Context, home, artifacts string) ([]string, error) {
	text, err := w.capture(ctx, "go", "env", "-json", "GOCACHE", "GOMODCACHE", "GOPATH", "GOENV")
	if err != nil {
		return nil, err
	}
	settings := personalSettings(home)
	if err := json.Unmarshal([]byte(text), &settings); err != nil {
		return nil, err
	}
	maps.Copy(settings, screenSettings())
	settings["CLAMPLINE_WINDOW_TEST"] = "1"
	settings["CLAMPLINE_ARTIFACTS"] = artifacts
	return windowEnviron(w.environ, settings), makeFolders(home, settings)
}

// personalSettings puts everything that a program keeps for a person below home.
func personalSettings(home string) map[string]string {
	return map[string]string{
		"HOME":            home,
		"XDG_CONFIG_HOME": filepath.Join(home, ".config"),
		"XDG_DATA_HOME":   filepath.Join(home, ".local", "share"),
		"XDG_STATE_HOME":  filepath.Join(home, ".local", "state"),
		"XDG_CACHE_HOME":  filepath.Join(home, ".cache"),
		"XDG_RUNTIME_DIR": filepath.Join(home, ".run"),
	}
}

// screenSettings makes each run look the same. The two limits of malloc keep
// the software renderer from giving its memory back after every frame, which
// costs three times the frame itself on a virtual machine.
func screenSettings() map[string]string {
	return map[string]string{
		"FYNE_SCALE":             "1",
		"LANG":                   "en_US.UTF-8",
		"LC_CTYPE":               "C.UTF-8",
		"MALLOC_TRIM_THRESHOLD_": "536870912",
		"MALLOC_MMAP_THRESHOLD_": "536870912",
		"XDG_SESSION_TYPE":       "x11",
		"LIBGL_ALWAYS_SOFTWARE":  "1",
	}
}

// windowEnviron returns base with settings in place of what it says of the
// same names, and without what would lead to the person's own desktop.
func windowEnviron(base []string, settings map[string]string) []string {
	environ := slices.DeleteFunc(slices.Clone(base), func(entry string) bool {
		name, _, _ := strings.Cut(entry, "=")
		_, replaced := settings[name]
		return replaced || ofDesktop(name)
	})
	for _, name := range slices.Sorted(maps.Keys(settings)) {
		environ = append(environ, name+"="+settings[name])
	}
	return environ
}

func ofDesktop(name string) bool {
	switch name {
	case "DISPLAY", "XAUTHORITY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET", "DBUS_SESSION_BUS_ADDRESS", "LANGUAGE":
		return true
	}
	return strings.HasPrefix(name, "LC_") || strings.HasPrefix(name, "FYNE_") || strings.HasPrefix(name, "XDG_")
}

// makeFolders makes the folders of settings that lie below home, for the eyes
// of one person only, as XDG_RUNTIME_DIR must be.
func makeFolders(home string, settings map[string]string) error {
	for _, folder := range settings {
		if !strings.HasPrefix(folder, home+string(filepath.Separator)) {
			continue
		}
		if err := os.MkdirAll(folder, 0o700); err != nil {
			return err
		}
	}
	return nil
}
