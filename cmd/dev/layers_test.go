package main

import (
	"fmt"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// layer is one package of the module and its place in the order: a package
// imports only packages with a smaller number. The packages that serve tests
// have the number of what they help to test, and may import up to it.
type layer struct {
	number    int
	path      string
	testsOnly bool
}

// layers is the architecture: it says what may know what. A package that is
// still to be written may stand here; one that stands not here may not exist.
func layers() []layer {
	return []layer{
		{1, "assets", false}, {1, "diagram/geom", false}, {1, "diagram/unit", false},
		{1, "diagram/disk", false}, {1, "diagram/disk/disktest", true},
		{2, "diagram", false}, {2, "diagram/diagramtest", true},
		{3, "diagram/file", false}, {3, "diagram/draw", false},
		{4, "diagram/draw/raster", false}, {4, "diagram/draw/svg", false}, {4, "diagram/draw/pdf", false}, {4, "diagram/draw/dxf", false}, {4, "diagram/library", false},
		{4, "diagram/draw/drawtest", true}, {4, "diagram/file/filetest", true},
		{5, "diagram/symbol", false}, {5, "diagram/route", false},
		{6, "diagram/scene", false}, {6, "diagram/page", false},
		{7, "diagram/edit", false}, {7, "diagram/edit/edittest", true},
		{8, "analysis/waveform", false}, {8, "analysis/table", false}, {8, "analysis/conductor", false}, {8, "analysis/usual", false}, {8, "analysis/wavetest", true},
		{9, "analysis/circuit", false},
		{10, "analysis/transient", false}, {10, "analysis/spice", false},
		{11, "analysis/protector", false},
		{12, "analysis", false},
		{13, "analysis/lead", false},
		{14, "analysis/extract", false}, {14, "analysis/handrule", false}, {14, "analysis/rule", false}, {14, "analysis/fault", false},
		{15, "analysis/assess", false},
		{16, "analysis/search", false}, {16, "analysis/compare", false}, {16, "analysis/mark", false},
		{17, "analysis/report", false}, {17, "analysis/survey", false}, {17, "analysis/record", false},
		{18, "app/look", false},
		{19, "app/plot", false},
		{20, "app/sheet", false}, {20, "app/parts", false}, {20, "app/details", false}, {20, "app/drawer", false},
		{21, "app", false},
		{22, "cmd/clampline", false}, {22, "cmd/clampcalc", false}, {22, "cmd/dev", false},
	}
}

// solverFirst and solverLast number the packages that know circuits, not drawings.
const solverFirst, solverLast = 8, 11

// restricted says who may import packages of others, by the beginning of their
// path. Each such package has one door into the module, so that it can be
// replaced there.
func restricted() map[string][]string {
	return map[string][]string{
		"fyne.io":                  {"app", "app/...", "cmd/clampline"},
		"fyne.io/fyne/v2/app":      {"cmd/clampline"},
		"github.com/fogleman/gg":   {"diagram/draw/raster"},
		"github.com/goccy/go-json": {"diagram/file"},
		"codeberg.org/go-pdf/fpdf": {"diagram/draw/pdf"},
		"github.com/gofrs/flock":   {"diagram/disk"},
		"golang.org/x/sys":         {"diagram/disk", "analysis/transient"},
		"golang.org/x/text":        {"analysis/survey"},
		"gonum.org":                {"analysis/assess"},
		"github.com/xuri/excelize": {"analysis/table"},
	}
}

// sourcePackage is a package as its files import it. Paths in the module are
// without its name: "diagram/geom".
type sourcePackage struct {
	path        string
	imports     []string
	testImports []string
}

// violations returns what in packages is against the rules, one line each.
func violations(packages []sourcePackage, table []layer) []string {
	known := map[string]layer{}
	for _, l := range table {
		known[l.path] = l
	}
	var found []string
	for _, p := range packages {
		if _, ok := known[p.path]; !ok {
			found = append(found, p.path+" is not in the table of layers")
			continue
		}
		for _, target := range p.imports {
			found = append(found, orderViolation(known[p.path], known[target], target)...)
			found = append(found, fenceViolations(p.path, target, known)...)
			found = append(found, testsOnlyViolation(known[p.path], known[target])...)
			found = append(found, plainViolation(p.path, target)...)
		}
		for _, target := range p.testImports {
			found = append(found, fenceViolations(p.path, target, known)...)
		}
	}
	return found
}

// orderViolation holds an import of a package against the order. A target that
// is not of the module has the number 0 and is no matter of it.
func orderViolation(from, to layer, target string) []string {
	switch {
	case to.number == 0, from.number > to.number:
		return nil
	case from.testsOnly && from.number == to.number:
		return nil
	case from.number == to.number:
		return []string{fmt.Sprintf("%s and %s are siblings (%d): neither may import the other", from.path, target, to.number)}
	}
	return []string{fmt.Sprintf("%s (%d) imports %s (%d): imports go to smaller numbers", from.path, from.number, target, to.number)}
}

func testsOnlyViolation(from, to layer) []string {
	if to.testsOnly && !from.testsOnly {
		return []string{fmt.Sprintf("%s imports %s: that is for _test.go files", from.path, to.path)}
	}
	return nil
}

// fenceViolations holds an import against the rules beside the order; tests
// keep to them as well.
func fenceViolations(from, target string, known map[string]layer) []string {
	var found []string
	refuse := func(why string) { found = append(found, fmt.Sprintf("%s imports %s: %s", from, target, why)) }
	number := known[from].number
	if solverFirst <= number && number <= solverLast && within(target, "diagram") {
		refuse("the solver knows circuits, not drawings")
	}
	if within(from, "diagram") && within(target, "analysis") {
		refuse("the model knows no engineering")
	}
	if within(from, "analysis") && within(target, "diagram/edit") {
		refuse("the analysis works on a document, not on an editor")
	}
	for door, allowed := range restricted() {
		if within(target, door) && !slices.ContainsFunc(allowed, func(who string) bool { return matches(from, who) }) {
			refuse("only " + strings.Join(allowed, ", ") + " may import " + door)
		}
	}
	slices.Sort(found)
	return found
}

// plainViolation keeps this program runnable on a machine with nothing but Go.
func plainViolation(from, target string) []string {
	first, _, _ := strings.Cut(target, "/")
	if from == "cmd/dev" && strings.Contains(first, ".") {
		return []string{"cmd/dev imports " + target + ": it takes the standard library only"}
	}
	return nil
}

// within tells whether path is folder or lies below it.
func within(path, folder string) bool {
	return path == folder || strings.HasPrefix(path, folder+"/")
}

// matches tells whether path is pattern, or lies below it if it ends in "/...".
func matches(path, pattern string) bool {
	folder, below := strings.CutSuffix(pattern, "/...")
	return path == pattern || below && strings.HasPrefix(path, folder+"/")
}

func TestImportsKeepToLayers(t *testing.T) {
	packages := readPackages(t, moduleRoot(t))
	if len(packages) == 0 {
		t.Fatal("found no packages to look at")
	}
	for _, violation := range violations(packages, layers()) {
		t.Error(violation)
	}
}

// readPackages reads the imports of every file, whatever system it is for. It
// reads the files themselves rather than asking the go command, so that a
// cached result of this test is dropped when one of them changes.
func readPackages(t *testing.T, root string) []sourcePackage {
	t.Helper()
	files, err := goFiles(root)
	if err != nil {
		t.Fatal(err)
	}
	var packages []sourcePackage
	for _, file := range files {
		path := filepath.ToSlash(filepath.Dir(file))
		last := len(packages) - 1
		if last < 0 || packages[last].path != path {
			packages = append(packages, sourcePackage{path: path})
			last++
		}
		imports := readImports(t, filepath.Join(root, file))
		if strings.HasSuffix(file, "_test.go") {
			packages[last].testImports = append(packages[last].testImports, imports...)
		} else {
			packages[last].imports = append(packages[last].imports, imports...)
		}
	}
	return packages
}

func readImports(t *testing.T, file string) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	if err != nil {
		t.Fatal(err)
	}
	var imports []string
	for _, spec := range parsed.Imports {
		path, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		imports = append(imports, strings.TrimPrefix(path, moduleName+"/"))
	}
	return imports
}
