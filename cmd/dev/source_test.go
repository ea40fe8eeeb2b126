package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func parseText(t *testing.T, text string) *ast.File {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "text.go", "package text\n"+text, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

func TestStartsGoroutine(t *testing.T) {
	tests := []struct {
		name string
		text string
		want bool
	}{
		{"go statement", "func f() { go f() }", true},
		{"deep inside", "func f() { for { if true { defer func() { go f() }() } } }", true},
		{"wait group", "func f(g group) { g.Go(f) }", true},
		{"timer", "func f() { time.AfterFunc(1, f) }", true},
		{"in a comment", "// go f()\nfunc f() {}", false},
		{"in a string", "const f = \"go f()\"", false},
		{"field named so", "func f(s state) bool { return s.Go }", false},
		{"plain calls", "func f() { f(); fmt.Println() }", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := startsGoroutine(parseText(t, test.text)); got != test.want {
				t.Errorf("got %v, want %v", got, test.want)
			}
		})
	}
}

func TestFuzzFunctions(t *testing.T) {
	got := fuzzFunctions(parseText(t, `
func FuzzRead(f *testing.F) {}
func Fuzz(f *testing.F) {}
func Fuzz2(f *testing.F) {}
func Fuzzy(f *testing.F) {}
func FuzzHelper(f *testing.F, n int) {}
func FuzzTest(t *testing.T) {}
func FuzzNothing() {}
func (s suite) FuzzMethod(f *testing.F) {}
func TestFuzz(f *testing.F) {}
var FuzzVariable = 1
`))
	want := []string{"FuzzRead", "Fuzz", "Fuzz2"}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("fuzz functions (-got +want):\n%s", diff)
	}
}

// TestScanPackages runs the finders over packages as the go command lists them.
func TestScanPackages(t *testing.T) {
	folder := t.TempDir()
	writeFile(t, filepath.Join(folder, "quiet.go"), "package text\nfunc f() {}\n")
	writeFile(t, filepath.Join(folder, "busy.go"), "package text\nfunc g() { go g() }\n")
	writeFile(t, filepath.Join(folder, "a_test.go"), "package text\nfunc FuzzA(f *testing.F) { go f.Fuzz() }\n")
	writeFile(t, filepath.Join(folder, "b_test.go"), "package text_test\nfunc FuzzB(f *testing.F) {}\n")
	tests := []struct {
		name    string
		in      listed
		racy    []string
		targets []fuzzTarget
	}{
		{"quiet, for goroutines of tests don't count", listed{GoFiles: []string{"quiet.go"}, TestGoFiles: []string{"a_test.go"}},
			nil, []fuzzTarget{{"text", "FuzzA"}}},
		{"busy", listed{GoFiles: []string{"quiet.go", "busy.go"}}, []string{"text"}, nil},
		{"busy in a file that calls C", listed{CgoFiles: []string{"busy.go"}}, []string{"text"}, nil},
		{"busy and without windows", listed{GoFiles: []string{"busy.go"}, Deps: []string{"fyne.io/fyne/v2"}}, []string{"text"}, nil},
		{"busy and with windows", listed{GoFiles: []string{"busy.go"}, Deps: []string{"fyne.io/fyne/v2/app"}}, nil, nil},
		{"test of the outside", listed{TestGoFiles: []string{"a_test.go"}, XTestGoFiles: []string{"b_test.go"}},
			nil, []fuzzTarget{{"text", "FuzzA"}, {"text", "FuzzB"}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			test.in.ImportPath, test.in.Dir = "text", folder
			racy, err := concurrent([]listed{test.in})
			if diff := cmp.Diff(racy, test.racy); err != nil || diff != "" {
				t.Errorf("goroutines: %v (-got +want):\n%s", err, diff)
			}
			targets, err := fuzzTargets([]listed{test.in})
			if diff := cmp.Diff(targets, test.targets, cmp.AllowUnexported(fuzzTarget{})); err != nil || diff != "" {
				t.Errorf("fuzz targets: %v (-got +want):\n%s", err, diff)
			}
		})
	}
}

func TestDecodeListing(t *testing.T) {
	got, err := decodeListing(strings.NewReader(`{"ImportPath": "a", "GoFiles": ["a.go"]}
{"ImportPath": "b", "Deps": ["a"]}`))
	want := []listed{{ImportPath: "a", GoFiles: []string{"a.go"}}, {ImportPath: "b", Deps: []string{"a"}}}
	if diff := cmp.Diff(got, want); err != nil || diff != "" {
		t.Errorf("packages: %v (-got +want):\n%s", err, diff)
	}
	if _, err := decodeListing(strings.NewReader(`{"ImportPath": `)); err == nil {
		t.Error("got no error for a listing that breaks off")
	}
}

func TestEndedByClock(t *testing.T) {
	tests := []struct {
		name   string
		output string
		want   bool
	}{
		{"clock", "--- FAIL: FuzzRead (5.01s)\n    context deadline exceeded\nFAIL\n", true},
		{"finding", "--- FAIL: FuzzRead\n    panic\n    Failing input written to testdata/fuzz/FuzzRead/1\nFAIL\n", false},
		{"finding about a deadline", "context deadline exceeded\nFailing input written to testdata/fuzz/FuzzRead/1\n", false},
		{"does not compile", "./read.go:1:1: expected declaration\nFAIL\n", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := endedByClock(test.output); got != test.want {
				t.Errorf("got %v, want %v", got, test.want)
			}
		})
	}
}

func TestFormatted(t *testing.T) {
	tests := []struct {
		name string
		text string
		want bool
	}{
		{"as it should be", "package a\n\nfunc f() {\n\treturn\n}\n", true},
		{"spaces", "package a\n\nfunc f() {\n  return\n}\n", false},
		{"no last line end", "package a", false},
		{"not Go, for the compiler to say", "package", true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := formatted([]byte(test.text)); got != test.want {
				t.Errorf("got %v, want %v", got, test.want)
			}
		})
	}
}

func TestCheckFormat(t *testing.T) {
	root := t.TempDir()
	writeFile(t, filepath.Join(root, "good.go"), "package a\n")
	writeFile(t, filepath.Join(root, "testdata", "any.go"), "package  a")
	w := &workshop{root: root, out: &bytes.Buffer{}}
	if err := w.checkFormat(); err != nil {
		t.Errorf("got %v, want all formatted", err)
	}
	writeFile(t, filepath.Join(root, "deep", "bad.go"), "package  a\n")
	want := filepath.Join("deep", "bad.go")
	if err := w.checkFormat(); err == nil || !strings.HasSuffix(err.Error(), "gofmt -w "+want) {
		t.Errorf("got %v, want %s named", err, want)
	}
}

func TestGoFiles(t *testing.T) {
	root := t.TempDir()
	for _, name := range []string{"a.go", "b_test.go", "c/d.go", "c/e.txt", "testdata/f.go", "c/testdata/g.go", ".h/i.go", "_j/k.go", "_l.go"} {
		writeFile(t, filepath.Join(root, filepath.FromSlash(name)), "")
	}
	got, err := goFiles(root)
	want := []string{"a.go", "b_test.go", filepath.Join("c", "d.go")}
	if diff := cmp.Diff(got, want); err != nil || diff != "" {
		t.Errorf("files: %v (-got +want):\n%s", err, diff)
	}
}
