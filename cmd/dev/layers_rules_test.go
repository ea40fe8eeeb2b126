package main

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestViolations shows for each rule an import that breaks it and one beside
// it that does not.
func TestViolations(t *testing.T) {
	tests := []struct {
		name string
		in   sourcePackage
		want string // a part of the only violation; empty if there is none
	}{
		{"down the order", sourcePackage{path: "diagram", imports: []string{"diagram/geom", "fmt"}}, ""},
		{"up the order", sourcePackage{path: "diagram/geom", imports: []string{"diagram"}}, "smaller numbers"},
		{"siblings", sourcePackage{path: "diagram/file", imports: []string{"diagram/draw"}}, "siblings"},
		{"siblings in one folder", sourcePackage{path: "app/sheet", imports: []string{"app/drawer"}}, "siblings"},
		{"test may look up the order", sourcePackage{path: "diagram/draw", testImports: []string{"diagram/draw/raster"}}, ""},
		{"unknown package", sourcePackage{path: "diagram/helpers"}, "not in the table"},
		{"the module's own top", sourcePackage{path: "."}, "not in the table"},

		{"solver imports a drawing", sourcePackage{path: "analysis/circuit", imports: []string{"diagram/geom"}}, "not drawings"},
		{"solver's test imports a drawing", sourcePackage{path: "analysis/spice", testImports: []string{"diagram"}}, "not drawings"},
		{"first of the solver", sourcePackage{path: "analysis/waveform", imports: []string{"diagram/unit"}}, "not drawings"},
		{"last of the solver", sourcePackage{path: "analysis/protector", imports: []string{"diagram"}}, "not drawings"},
		{"above the solver", sourcePackage{path: "analysis", imports: []string{"diagram"}}, ""},
		{"model's test imports engineering", sourcePackage{path: "diagram/scene", testImports: []string{"analysis"}}, "no engineering"},
		{"analysis imports the editor", sourcePackage{path: "analysis/mark", imports: []string{"diagram/edit"}}, "not on an editor"},
		{"analysis imports the scene", sourcePackage{path: "analysis/mark", imports: []string{"diagram/scene"}}, ""},

		{"toolkit in the window", sourcePackage{path: "app/sheet", imports: []string{"fyne.io/fyne/v2/canvas"}}, ""},
		{"toolkit at the top of the window", sourcePackage{path: "app", imports: []string{"fyne.io/fyne/v2"}}, ""},
		{"toolkit below the window", sourcePackage{path: "diagram/edit", imports: []string{"fyne.io/fyne/v2"}}, "may import fyne.io"},
		{"toolkit in the terminal program", sourcePackage{path: "cmd/clampcalc", testImports: []string{"fyne.io/fyne/v2/test"}}, "may import fyne.io"},
		{"driver in the program", sourcePackage{path: "cmd/clampline", imports: []string{"fyne.io/fyne/v2/app"}}, ""},
		{"driver in the window", sourcePackage{path: "app", imports: []string{"fyne.io/fyne/v2/app"}}, "may import fyne.io/fyne/v2/app"},
		{"masks in the raster painter", sourcePackage{path: "diagram/draw/raster", imports: []string{"github.com/fogleman/gg"}}, ""},
		{"masks elsewhere", sourcePackage{path: "diagram/draw/svg", imports: []string{"github.com/fogleman/gg"}}, "may import github.com/fogleman/gg"},
		{"json in the file", sourcePackage{path: "diagram/file", imports: []string{"github.com/goccy/go-json"}}, ""},
		{"json elsewhere", sourcePackage{path: "cmd/clampcalc", imports: []string{"github.com/goccy/go-json"}}, "may import github.com/goccy/go-json"},

		{"helper in a test", sourcePackage{path: "diagram/symbol", testImports: []string{"diagram/draw/drawtest"}}, ""},
		{"helper outside a test", sourcePackage{path: "diagram/symbol", imports: []string{"diagram/draw/drawtest"}}, "_test.go"},
		{"helper in a helper", sourcePackage{path: "diagram/edit/edittest", imports: []string{"diagram/draw/drawtest"}}, ""},
		{"helper imports what it helps to test", sourcePackage{path: "diagram/edit/edittest", imports: []string{"diagram/edit"}}, ""},
		{"helper imports above it", sourcePackage{path: "analysis/wavetest", imports: []string{"analysis/circuit"}}, "smaller numbers"},

		{"plain set-up", sourcePackage{path: "cmd/dev", imports: []string{"os/exec"}}, ""},
		{"set-up that needs a download", sourcePackage{path: "cmd/dev", imports: []string{"golang.org/x/mod/modfile"}}, "standard library only"},
		{"its test may", sourcePackage{path: "cmd/dev", testImports: []string{"github.com/google/go-cmp/cmp"}}, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := violations([]sourcePackage{test.in}, layers())
			if test.want == "" {
				if len(got) > 0 {
					t.Errorf("got %q, want none", got)
				}
				return
			}
			if len(got) != 1 || !strings.Contains(got[0], test.want) {
				t.Errorf("got %q, want one with %q", got, test.want)
			}
		})
	}
}

func TestViolationsOfSeveralPackages(t *testing.T) {
	got := violations([]sourcePackage{
		{path: "diagram/geom", imports: []string{"diagram/unit"}},
		{path: "diagram/unit", imports: []string{"math"}},
		{path: "lost"},
	}, layers())
	want := []string{
		"diagram/geom and diagram/unit are siblings (1): neither may import the other",
		"lost is not in the table of layers",
	}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("violations (-got +want):\n%s", diff)
	}
}

func TestLayersNameEachPackageOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, l := range layers() {
		if seen[l.path] {
			t.Errorf("%s stands twice in the table", l.path)
		}
		seen[l.path] = true
		if l.number < 1 {
			t.Errorf("%s has the number %d, want 1 or more", l.path, l.number)
		}
	}
}
