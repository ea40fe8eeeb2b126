package drawtest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Text fails the test where got is not what the named file under testdata
// holds.
func Text(t testing.TB, name, got string) {
	t.Helper()
	want, ok := wanted(t, name, []byte(got))
	plain := strings.ReplaceAll(string(want), "\r\n", "\n") // a checkout may have changed line ends
	if ok && got != plain {
		t.Errorf("%s differs (-got +want):\n%s", failed(t, name, []byte(got)), cmp.Diff(got, plain))
	}
}

// wanted returns what the file holds, and false after writing got to it.
func wanted(t testing.TB, name string, got []byte) ([]byte, bool) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE") == "1" {
		write(t, path, got)
		return nil, false
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Errorf("%s: %v; run with UPDATE=1 to make it", failed(t, name, got), err)
		return nil, false
	}
	return want, true
}

// failed keeps what a test got and returns where.
func failed(t testing.TB, name string, got []byte) string {
	t.Helper()
	path := filepath.Join("testdata", "failed", name)
	write(t, path, got)
	return path
}

func write(t testing.TB, path string, content []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, content, 0o644); err != nil {
		t.Fatal(err)
	}
}
