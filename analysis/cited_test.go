package analysis

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// standard finds what is cited by a number.
var standard = regexp.MustCompile(`(?:IEC|IEEE|NFPA|UL|ANSI|BS|HD|DIN VDE|UTE C|ITU-T|OVE-Fachinformation|UFC|EN|NEMA) [A-Z]?\.?\d[\d.]*(?:-\d+)*|scribd\.com/document/\d+`)

// texts returns the string literals of what is not a test below the folders.
func texts(t *testing.T, folders ...string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, folder := range folders {
		err := filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") || filepath.Base(path) == "cited.go" {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if literal, ok := n.(*ast.BasicLit); ok && literal.Kind == token.STRING {
					text, _ := strconv.Unquote(literal.Value)
					out[text] = path
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// Every standard that a text of the program names stands among the sources, and
// every source is named by one.
func TestSourcesAreWhole(t *testing.T) {
	found, named := 0, map[string]bool{}
	for text, path := range texts(t, ".", "../diagram", "../app", "../cmd") {
		for _, cite := range standard.FindAllString(text, -1) {
			found++
			if !isCited(cite) {
				t.Errorf("%s: %s is no source of the table, in %q", path, cite, text)
			}
		}
		for _, source := range Sources() {
			named[source.Name] = named[source.Name] || strings.Contains(text, leading(source.Name))
		}
	}
	if found < 80 {
		t.Errorf("only %d citations were found", found)
	}
	for _, source := range Sources() {
		if source.Taken == "" || source.Standing == "" || !named[source.Name] {
			t.Errorf("%+v: named %t", source, named[source.Name])
		}
	}
}

// isCited reports whether the table has what a text cites, whatever the edition.
func isCited(cite string) bool {
	for _, source := range Sources() {
		if at := strings.Index(source.Name, cite); at >= 0 || strings.HasPrefix(cite, source.Name) {
			return true
		}
	}
	return false
}

// leading is the name of a source without what tells it from another part of the
// same.
func leading(name string) string {
	for _, more := range []string{", summary", " chapter 9"} {
		name, _, _ = strings.Cut(name, more)
	}
	return name
}

// What the texts say is from memory is not told as read.
func TestStandingIsThatOfTheTexts(t *testing.T) {
	for text, path := range texts(t, ".", "../diagram", "../app", "../cmd") {
		if !strings.Contains(text, "from memory") {
			continue
		}
		for _, cite := range standard.FindAllString(text, -1) {
			recalled := false
			for _, source := range Sources() {
				same := strings.HasPrefix(cite, source.Name) || strings.HasPrefix(source.Name, cite)
				recalled = recalled || same && source.Standing != AsRead
			}
			if !recalled {
				t.Errorf("%s: %s is from memory in %q, and read by the table", path, cite, text)
			}
		}
	}
}
