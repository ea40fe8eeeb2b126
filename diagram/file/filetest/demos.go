// Package filetest opens the demo sheets and saves sheets, for tests only.
package filetest

import (
	"strings"
	"testing"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/file"
)

// Demos returns the demo sheets; there is one at least, and all of them must open.
func Demos(t testing.TB) []*diagram.Document {
	t.Helper()
	var out []*diagram.Document
	for _, demo := range assets.Demos() {
		doc, err := file.Read(strings.NewReader(demo.Text))
		if err != nil {
			t.Fatalf("%s: %v", demo.Title, err)
		}
		out = append(out, doc)
	}
	if len(out) == 0 {
		t.Fatal("there are no demos")
	}
	return out
}

// Save saves a sheet as the window usually does.
func Save(path string, doc *diagram.Document) error {
	_, err := file.Save(path, doc, file.Saving{Backups: file.UsualBackups})
	return err
}
