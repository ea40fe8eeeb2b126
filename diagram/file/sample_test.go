package file_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram/file"
)

// samples returns the frozen files of a version; there must be some.
func samples(t testing.TB, version int) []string {
	t.Helper()
	folder := filepath.Join("..", "..", "testdata", "files", fmt.Sprintf("v%d", version))
	paths, err := filepath.Glob(filepath.Join(folder, "*"+file.Extension))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no frozen sample of version %d in %s (%v)", version, folder, err)
	}
	return paths
}

func TestEveryVersionOpens(t *testing.T) {
	for version := 1; version <= file.Current; version++ {
		for _, path := range samples(t, version) {
			t.Run(fmt.Sprintf("v%d/%s", version, filepath.Base(path)), func(t *testing.T) {
				doc, err := file.Load(path)
				if err != nil {
					t.Fatal(err)
				}
				if parts, feeders, protectors := doc.Count(); parts == 0 || feeders == 0 || protectors == 0 {
					t.Errorf("got %d parts, %d feeders, %d protectors, want some of each", parts, feeders, protectors)
				}
				checkRound(t, doc)
			})
		}
	}
}

func TestTheCurrentFormatIsFrozen(t *testing.T) {
	for _, path := range samples(t, file.Current) {
		t.Run(filepath.Base(path), func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(text), write(t, read(t, string(text)))); diff != "" {
				t.Errorf("the program writes this version otherwise now (-frozen +got):\n%s", diff)
			}
		})
	}
}
