package spice

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Find returns where the simulator ngspice is on this machine, and whether it
// is there at all.
func Find() (path string, ok bool) {
	for _, name := range []string{"ngspice", "ngspice_con"} { // the second is its name for a console of Windows
		if path, err := exec.LookPath(name); err == nil {
			return path, true
		}
	}
	return "", false
}

// lastLines is how much of the output an error quotes.
const lastLines = 8

// Run runs a deck in a folder of its own, which is gone afterwards, and returns
// all that the simulator printed. An error says that it is missing, that the
// context ended, or with which last lines it failed.
func Run(ctx context.Context, deck string) (output string, err error) {
	path, ok := Find()
	if !ok {
		return "", errors.New("ngspice is not on this machine; install it and put it on the path")
	}
	folder, err := os.MkdirTemp("", "clampline-deck-")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(folder)
	if err := os.WriteFile(filepath.Join(folder, "deck.cir"), []byte(deck), 0o600); err != nil {
		return "", err
	}
	var out, complaints bytes.Buffer                              // apart, or one would break the other's lines
	cmd := exec.CommandContext(ctx, path, "-n", "-b", "deck.cir") // -n: without the user's own settings
	cmd.Dir, cmd.Stdout, cmd.Stderr = folder, &out, &complaints
	cmd.WaitDelay = time.Second
	err = cmd.Run()
	output = out.String() + "\n" + complaints.String()
	switch {
	case ctx.Err() != nil:
		return output, ctx.Err()
	case err != nil:
		return output, fmt.Errorf("ngspice: %w: %s", err, tail(output))
	}
	return output, nil
}

// tail returns the last lines of the output that say something.
func tail(output string) string {
	lines := slices.DeleteFunc(linesOf(output), func(line string) bool { return line == "" || isProgress(line) })
	return strings.Join(lines[max(0, len(lines)-lastLines):], "; ")
}

// isProgress tells the lines that only say how far a run is.
func isProgress(line string) bool { return strings.HasPrefix(line, "Reference value") }
