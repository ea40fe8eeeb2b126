package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/draw/drawtest"
)

// An image is read as a sheet has it; what is none, too large or not there is an error.
func TestReadImage(t *testing.T) {
	folder := t.TempDir()
	write := func(name string, data []byte) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	logo := drawtest.Logo(40, 20)
	got, err := readImage(write("logo.png", logo))
	if err != nil || string(diagram.Issue{Logo: got}.LogoFile()) != string(logo) {
		t.Errorf("got %.40q, %v", got, err)
	}
	for path, want := range map[string]string{
		write("text.png", []byte("no image")): "no PNG or JPEG", write("large.png", append(logo, make([]byte, diagram.MostImage)...)): "make it smaller", filepath.Join(folder, "none.png"): "none.png",
	} {
		if _, err := readImage(path); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v, want %q", path, err, want)
		}
	}
}
