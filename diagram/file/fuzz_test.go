package file_test

import (
	"encoding/json"
	"errors"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"clampline/assets"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

// FuzzReadLibrary: as FuzzRead, of libraries.
func FuzzReadLibrary(f *testing.F) {
	for _, one := range brokenLibraries() {
		f.Add(one.text)
	}
	f.Add(shelf(`{"id": "a", "modes": {"L-N": {"level": 700}}, ` + strange[1:]))
	f.Add(string(assets.Protectors()[:4000]))
	f.Fuzz(func(t *testing.T, text string) {
		library, err := file.ReadLibrary(strings.NewReader(text))
		if err != nil {
			var one *file.Error
			if !errors.As(err, &one) || one.What == "" {
				t.Fatalf("got %#v, want an *Error", err)
			}
			return
		}
		first := writeLibrary(t, library)
		again := readLibrary(t, first)
		if diff := cmp.Diff(library, again, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("the library changed on its way (-want +got):\n%s", diff)
		}
		if second := writeLibrary(t, again); second != first {
			t.Fatalf("the second file differs (-want +got):\n%s", cmp.Diff(first, second))
		}
	})
}

// FuzzRead: no text makes Read panic; a text that is refused is refused with
// an *Error; one that is taken is JSON by the standard library too, and comes
// back equal after it is written.
func FuzzRead(f *testing.F) {
	for _, path := range samples(f, file.Current) {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	for _, one := range allBroken() {
		f.Add(one.text)
	}
	f.Add(sheet(strange[1 : len(strange)-1]))
	f.Add(write(f, diagramtest.Random(diagramtest.Rand(1), 2)))
	f.Fuzz(func(t *testing.T, text string) {
		doc, err := file.Read(strings.NewReader(text))
		if err != nil {
			var one *file.Error
			if !errors.As(err, &one) || one.What == "" {
				t.Fatalf("got %#v, want an *Error", err)
			}
			return
		}
		if !json.Valid([]byte(strings.TrimPrefix(text, "\uFEFF"))) {
			t.Fatalf("took what is not JSON: %q", text)
		}
		first := write(t, doc)
		if !json.Valid([]byte(first)) {
			t.Fatalf("wrote what is not JSON: %q", first)
		}
		again := read(t, first)
		if diff := cmp.Diff(contents(doc), contents(again)); diff != "" {
			t.Fatalf("the document changed on its way (-want +got):\n%s", diff)
		}
		if diff := cmp.Diff(first, write(t, again)); diff != "" {
			t.Fatalf("the second file differs (-want +got):\n%s", diff)
		}
	})
}
