package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// moduleRoot returns the folder of go.mod.
func moduleRoot(t *testing.T) string {
	t.Helper()
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	root, err := findRoot(here)
	if err != nil {
		t.Fatal(err)
	}
	return root
}

// strayNames returns the names that the top level of the repository may not
// hold. The programs of cmd are let pass: go build leaves them there and git
// ignores them.
func strayNames(names, programs []string) []string {
	allowed := []string{
		"cmd", "app", "diagram", "analysis", "assets", "testdata",
		"README.md", "DEVELOPERS.md", "go.mod", "go.sum", "FyneApp.toml",
	}
	return slices.DeleteFunc(slices.Clone(names), func(name string) bool {
		return strings.HasPrefix(name, ".") || slices.Contains(allowed, name) ||
			slices.Contains(programs, strings.TrimSuffix(name, ".exe"))
	})
}

func TestStrayNames(t *testing.T) {
	names := []string{".git", "README.md", "app", "build", "clampline", "clampline.exe", "notes.txt", "src"}
	got := strayNames(names, []string{"clampline", "dev"})
	want := []string{"build", "notes.txt", "src"}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("stray names (-got +want):\n%s", diff)
	}
}

func TestTopLevelHoldsOnlyItsNames(t *testing.T) {
	root := moduleRoot(t)
	for _, name := range strayNames(entryNames(t, root), entryNames(t, filepath.Join(root, "cmd"))) {
		t.Errorf("%s has no place at the top level of the repository", name)
	}
}

func entryNames(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, entry := range entries {
		names = append(names, entry.Name())
	}
	return names
}

// longestFile is how many lines a file may have that is not a table.
const longestFile = 400

// tables names the files that hold nothing but a table and may be longer.
func tables() []string {
	return nil
}

// tooLong returns the files that are longer than they may be.
func tooLong(lines map[string]int, tables []string) []string {
	var long []string
	for file, count := range lines {
		if count > longestFile && !strings.HasSuffix(file, "_test.go") && !slices.Contains(tables, file) {
			long = append(long, fmt.Sprintf("%s has %d lines", file, count))
		}
	}
	slices.Sort(long)
	return long
}

func TestTooLong(t *testing.T) {
	lines := map[string]int{"a/at.go": 400, "a/over.go": 401, "a/table.go": 900, "a/over_test.go": 900}
	got := tooLong(lines, []string{"a/table.go"})
	want := []string{"a/over.go has 401 lines"}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("files too long (-got +want):\n%s", diff)
	}
}

func TestFilesAreShort(t *testing.T) {
	root := moduleRoot(t)
	files, err := goFiles(root)
	if err != nil {
		t.Fatal(err)
	}
	lines := map[string]int{}
	for _, file := range files {
		text, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Fatal(err)
		}
		lines[filepath.ToSlash(file)] = bytes.Count(text, []byte("\n"))
	}
	if len(lines) == 0 {
		t.Fatal("found no files to count")
	}
	for _, long := range tooLong(lines, tables()) {
		t.Errorf("%s, at most %d; one idea per file", long, longestFile)
	}
}
