//go:build linux || darwin

package disk

import (
	"os"
	"path/filepath"
	"testing"
)

// An attribute that is gone when it is read is an error and no more.
func TestAttributeThatIsGone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := attribute(path, path, "user.gone"); err == nil {
		t.Error("got no error")
	}
}

// Whose a file is that is gone cannot be told, and that is said.
func TestOwnerOfWhatIsGone(t *testing.T) {
	folder := t.TempDir()
	path, none := filepath.Join(folder, "x"), filepath.Join(folder, "none")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if own(none, path) == nil || own(path, none) == nil {
		t.Error("got no error")
	}
}
