package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestFaultsOfTheRealProgram kills the program at its system calls, and lets
// them fail, while it writes a sheet in the place of another. The calls are
// those of the system itself, whatever the program believes that it calls.
func TestFaultsOfTheRealProgram(t *testing.T) {
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skip("strace is not installed")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "a.clampline")
	texts := map[string][]byte{}
	for _, title := range []string{"One", "Two"} {
		if out, err := exec.Command("clampcalc", "new", path, "--title", title, "--force").CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		if texts[title], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
	}
	if out, err := exec.Command(strace, "-f", "-o", os.DevNull, "clampcalc", "--help").CombinedOutput(); err != nil {
		t.Skipf("strace may not trace here: %v\n%s", err, out)
	}
	kept := 0
	for _, call := range []string{"openat", "write", "fsync", "renameat", "unlinkat"} {
		for _, what := range []string{"error=ENOSPC", "error=EIO", "signal=SIGKILL"} {
			for when := 1; when <= 5; when++ {
				if err := os.WriteFile(path, texts["One"], 0o644); err != nil {
					t.Fatal(err)
				}
				fault := fmt.Sprintf("inject=%s:%s:when=%d", call, what, when)
				err := exec.Command(strace, "-f", "-qq", "-o", os.DevNull, "-P", folder, "-P", path, "-e", "trace="+call, "-e", fault,
					"clampcalc", "new", path, "--title", "Two", "--force").Run()
				text, readErr := os.ReadFile(path)
				switch isOld := bytes.Equal(text, texts["One"]); {
				case readErr != nil || !isOld && !bytes.Equal(text, texts["Two"]):
					t.Errorf("%s: the sheet is neither the old nor the new one (%v)", fault, readErr)
				case isOld && err == nil:
					t.Errorf("%s: nothing was saved, and nothing was said", fault)
				case isOld:
					kept++
				}
			}
		}
	}
	if kept == 0 {
		t.Error("no fault kept the program from saving: none has struck")
	}
	if err := exec.Command("clampcalc", "new", path, "--force").Run(); err != nil {
		t.Error(err)
	}
	if left, _ := filepath.Glob(filepath.Join(folder, ".*")); len(left) > 0 {
		t.Errorf("left after the next save: %q", left)
	}
}
