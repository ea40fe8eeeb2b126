package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
)

// demo is the option by which the editor opens the demo building.
const demo = "-demo"

// runEditor builds the editor and opens a file in it, or the demo building if
// none is named.
func runEditor(ctx context.Context, w *workshop, args []string) error {
	file, err := w.fileToOpen(args)
	if err != nil {
		return err
	}
	if !w.system.hasScreen(os.Getenv) {
		return errors.New("there is no screen: neither DISPLAY nor WAYLAND_DISPLAY is set; start it from a desktop session, or over SSH with -X")
	}
	if err := w.setUp(ctx, toBuild); err != nil {
		return err
	}
	program, err := w.buildEditor(ctx)
	if err != nil {
		return err
	}
	if file == demo {
		w.say("opening the demo building")
	} else {
		w.say("opening %s", file)
	}
	return w.run(ctx, program, file)
}

// fileToOpen returns the path of the file named in args, seen from the folder
// the command was typed in, or the option that opens the demo.
func (w *workshop) fileToOpen(args []string) (string, error) {
	switch {
	case len(args) == 0:
		return demo, nil
	case len(args) > 1:
		return "", usageError("one file at a time")
	case args[0] == "" || args[0][0] == '-':
		return "", usageError(args[0] + " is not a file name")
	}
	path := args[0]
	if !filepath.IsAbs(path) {
		path = filepath.Join(w.start, path)
	}
	_, err := os.Stat(path)
	return path, err
}

// buildEditor compiles the editor into the person's cache folder, so that the
// checkout stays clean, and returns the path of the program.
func (w *workshop) buildEditor(ctx context.Context) (string, error) {
	folder, err := cacheFolder("bin")
	if err != nil {
		return "", err
	}
	program := filepath.Join(folder, "clampline")
	if w.system.family == windowsFamily {
		program += ".exe"
	}
	w.sayBuilding()
	return program, w.step("build", func() error {
		return w.run(ctx, "go", "build", "-o", program, "./cmd/clampline")
	})
}

func (w *workshop) sayBuilding() {
	w.say("building; the first time this compiles the window toolkit, 3 to 4 minutes; after that, seconds")
}

// cacheFolder returns a folder of this program in the person's cache folder,
// and makes it.
func cacheFolder(name string) (string, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	folder := filepath.Join(cache, moduleName, name)
	return folder, os.MkdirAll(folder, 0o755)
}
