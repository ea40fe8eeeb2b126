package app

import (
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestExport(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	for _, row := range []struct{ name, typed, want string }{
		{"PNG", "drawing.png", "drawing.png"},
		{"SVG", "drawing.svg", "drawing.svg"},
		{"PDF", "drawing.pdf", "drawing.pdf"},
		{"no ending", "drawing", "drawing.png"},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			a.workOn(demo(t, 0), "")
			run(t, a, "export")
			nameFile(t, a, "", row.typed)
			quiet(t, a)
			folder := os.Getenv("HOME")
			path := filepath.Join(folder, row.want)
			if got, want := a.status.doing.Text, "Drawing written to "+row.want+"  ("+folder+")"; got != want {
				t.Errorf("the status line says %q, want %q", got, want)
			}
			if entries, _ := os.ReadDir(folder); len(entries) != 1 {
				t.Errorf("got %v in the folder, want one file", entries)
			}
			if strings.HasSuffix(path, ".png") {
				checkPNG(t, path)
				return
			}
			text, err := os.ReadFile(path)
			if strings.HasSuffix(path, ".pdf") {
				if !strings.HasPrefix(string(text), "%PDF-") || err != nil {
					t.Errorf("the file begins with %.8q (%v)", text, err)
				}
				return
			}
			for _, word := range []string{"<svg", "Chiller", "480Y/277", "Estimates for planning"} {
				if !strings.Contains(string(text), word) {
					t.Errorf("the drawing does not contain %q (%v)", word, err)
				}
			}
		})
	}
}

// checkPNG fails where the picture is small or of one colour.
func checkPNG(t *testing.T, path string) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	picture, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	bounds := picture.Bounds()
	if bounds.Dx() < 1000 || bounds.Dy() < 500 {
		t.Errorf("the picture is %v, want the whole sheet at %d dots an inch", bounds, exportDotsPerInch)
	}
	first, other := picture.At(0, 0), 0
	for y := bounds.Min.Y; y < bounds.Max.Y; y += 7 {
		for x := bounds.Min.X; x < bounds.Max.X; x += 7 {
			if picture.At(x, y) != first {
				other++
			}
		}
	}
	if other < 1000 {
		t.Errorf("%d of the points looked at differ from the ground, want a drawing", other)
	}
}

// What was done is said until the next thing is.
func TestNoticeGoes(t *testing.T) {
	for name, next := range map[string]func(a *App){
		"a command":   func(a *App) { a.runNamed("zoom in") },
		"a selection": func(a *App) { a.editor.Select("panel-1"); a.refresh() },
		"a sheet":     func(a *App) { a.workOn(house(t), "") },
	} {
		a := start(t)
		a.workOn(house(t), "")
		a.note("done")
		if got := a.status.doing.Text; got != "done" {
			t.Fatalf("the status line says %q", got)
		}
		next(a)
		if got := a.status.doing.Text; got == "done" {
			t.Errorf("after %s the status line still says %q", name, got)
		}
	}
}

func TestExportOfAnotherKind(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	path := filepath.Join(t.TempDir(), "drawing.gif")
	a.exportTo(path)
	says(t, a, "Drawing not written")
	if exists(path) {
		t.Error("a file was left behind")
	}
}

func TestExportAsksBeforeItWritesOver(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	path := filepath.Join(t.TempDir(), "drawing.png")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	a.exportTo(strings.TrimSuffix(path, ".png"))
	says(t, a, "Overwrite?")
	answer(t, a, "No")
	if text, _ := os.ReadFile(path); string(text) != "old" {
		t.Error("the file was written over")
	}
}

func TestExportIsNamedAfterTheSheet(t *testing.T) {
	a := start(t)
	a.OpenPath(saved(t, house(t), "house.clampline"))
	run(t, a, "export")
	nameFile(t, a, "", "x.png")
	if !exists(filepath.Join(filepath.Dir(a.path), "x.png")) {
		t.Error("the drawing does not lie beside the sheet")
	}
}

// A drawing of the transient says so, with the surge cases.
func TestExportOfTheTransient(t *testing.T) {
	a := guarded(t, start(t))
	run(t, a, "basis")
	path := filepath.Join(t.TempDir(), "drawing.svg")
	a.exportTo(path)
	text, err := os.ReadFile(path)
	for _, words := range []string{"· transient", "Surge case “Supply, ring wave”", "the worst of them counts"} {
		if !strings.Contains(string(text), words) {
			t.Errorf("the drawing does not say %q (%v)", words, err)
		}
	}
}

// The drawing waits until the sheet as it is has been judged.
func TestExportWaitsForTheResult(t *testing.T) {
	for name, other := range map[string]bool{"same sheet": false, "another sheet": true} {
		a := guarded(t, start(t))
		h := &held{}
		a.judge.run = h.executor()
		change(t, a, "Mains")
		path := filepath.Join(t.TempDir(), "drawing.svg")
		a.exportTo(path)
		if exists(path) {
			t.Errorf("%s: the drawing is older than the sheet", name)
		}
		if other {
			a.workOn(house(t), "")
		}
		for h.next() {
		}
		if exists(path) == other {
			t.Errorf("%s: the drawing was written: %t", name, !other)
		}
		if other {
			says(t, a, "Another sheet was opened")
		} else if text, _ := os.ReadFile(path); !strings.Contains(string(text), "Mains") {
			t.Errorf("%s: the drawing is that of an older state", name)
		}
	}
}
