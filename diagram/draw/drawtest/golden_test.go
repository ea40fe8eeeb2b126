package drawtest

import (
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// witness is a test that only writes down how it fails.
type witness struct {
	testing.TB
	failures []string
}

func (w *witness) Helper() {}

func (w *witness) Errorf(format string, values ...any) {
	w.failures = append(w.failures, fmt.Sprintf(format, values...))
}

func TestText(t *testing.T) {
	t.Chdir(t.TempDir())
	t.Setenv("UPDATE", "")
	if err := os.MkdirAll("testdata", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join("testdata", "a.txt"), []byte("one\r\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	tests := []struct{ name, file, got, complaint string }{
		{"same", "a.txt", "one\n", ""},
		{"different", "a.txt", "two\n", "a.txt differs"},
		{"no file", "b.txt", "three\n", "UPDATE=1"},
	}
	for _, test := range tests {
		w := &witness{TB: t}
		Text(w, test.file, test.got)
		if all := strings.Join(w.failures, "; "); (all == "") != (test.complaint == "") || !strings.Contains(all, test.complaint) {
			t.Errorf("%s: complaint %q, want %q", test.name, all, test.complaint)
		}
		kept, err := os.ReadFile(filepath.Join("testdata", "failed", test.file))
		if want := test.complaint != ""; (err == nil) != want || want && string(kept) != test.got {
			t.Errorf("%s: kept %q, %v", test.name, kept, err)
		}
	}
}

func TestTextUpdate(t *testing.T) {
	t.Chdir(t.TempDir())
	t.Setenv("UPDATE", "1")
	Text(t, "a.txt", "new\n")
	if got, err := os.ReadFile(filepath.Join("testdata", "a.txt")); err != nil || string(got) != "new\n" {
		t.Errorf("wrote %q, %v", got, err)
	}
}

func TestImage(t *testing.T) {
	t.Chdir(t.TempDir())
	flat := image.NewRGBA(image.Rect(0, 0, 10, 10))
	t.Setenv("UPDATE", "1")
	Image(t, "a.png", flat, 0)
	t.Setenv("UPDATE", "")
	flat.Set(3, 4, color.White)
	for limit, fails := range map[float64]bool{0.5: true, 1: false} {
		w := &witness{TB: t}
		Image(w, "a.png", flat, limit)
		if got := len(w.failures) > 0; got != fails {
			t.Errorf("one pixel in a hundred, limit %v: fails %v, want %v", limit, got, fails)
		}
	}
}

func TestDiffering(t *testing.T) {
	plain := image.NewGray(image.Rect(0, 0, 4, 5))
	spot := image.NewGray(image.Rect(2, 2, 6, 7))
	spot.SetGray(2, 2, color.Gray{Y: tolerance})
	spot.SetGray(3, 2, color.Gray{Y: tolerance + 1})
	tests := []struct {
		name string
		a, b image.Image
		want float64
	}{
		{"same", plain, plain, 0},
		{"one of twenty, elsewhere", plain, spot, 5},
		{"size", plain, image.NewGray(image.Rect(0, 0, 5, 4)), 100},
		{"empty", image.NewGray(image.Rectangle{}), image.NewGray(image.Rectangle{}), 0},
	}
	for _, test := range tests {
		if got := Differing(test.a, test.b); got != test.want {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
}
