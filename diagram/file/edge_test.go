package file_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

// Numbers and escapes by the grammar of RFC 8259, in a member that nobody knows.
func TestGrammarOfNumbersAndEscapes(t *testing.T) {
	for value, taken := range map[string]bool{
		"0": true, "-0": true, "10": true, "-0.5e-3": true, "1E+5": true, "1e5": true, "0e1": true, "9.09": true,
		"-": false, "00": false, "01": false, "1.": false, ".5": false, "+1": false, "1e": false, "1e+": false, "1.e5": false, "0x1": false, "1e5.5": false, "--1": false,
		`"\u00aF"`: true, `"\u00FA"`: true, `"\u09Af"`: true, `"\"\\\/\b\f\n\r\t"`: true, `" ~"`: true, "\"\x7f\"": true,
		`"\u00g0"`: false, `"\u00G0"`: false, `"\u00/0"`: false, `"\u00:0"`: false, `"\u00@0"`: false, "\"\\u00`0\"": false, `"\u123"`: false, `"\x41"`: false, "\"\x1f\"": false, "\"\t\"": false,
		"true": true, "false": true, "null": true, "True": false, "nul": false, "trueish": false,
		"[]": true, "[ ]": true, "[1 , 2]": true, "[1,]": false, "[,1]": false, "{}": true, "{ }": true, `{"a" : 1}`: true, `{"a":1,}`: false, `{"a"}`: false, `{"a":1 "b":2}`: false,
	} {
		_, err := file.Read(strings.NewReader(sheet(`"others": ` + value)))
		if (err == nil) != taken {
			t.Errorf("%s: got %v", value, err)
		}
	}
}

// What is within 64 others is taken, in the file as in the members that a record keeps;
// what is written can be read again.
func TestDeepestNesting(t *testing.T) {
	for within := 55; within <= 70; within++ {
		lists := strings.Repeat("[", within) + strings.Repeat("]", within)
		_, err := file.Read(strings.NewReader(sheet(`"others": ` + lists)))
		if (err == nil) != (within <= 63) { // the file itself is the first
			t.Errorf("%d lists in the file: %v", within, err)
		}
		_, err = file.Read(strings.NewReader(sheet(`"parts": [{"id": "panel-1", "kind": "panel", "others": ` + lists + `}]`)))
		if (err == nil) != (within <= 61) {
			t.Errorf("%d lists in a part: %v", within, err)
		}
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Extra: `{"others":` + lists + `}`})
		})
		var out strings.Builder
		if err := file.Write(&out, doc); (err == nil) != (within <= 61) {
			t.Errorf("%d lists written in a part: %v", within, err)
		} else if err != nil && !strings.Contains(err.Error(), "nested more than 64 deep") {
			t.Errorf("%d lists written in a part: %v, which is not why", within, err)
		}
	}
}

// A whole number is told by what it is, until it is so large that it is none.
func TestLargestCount(t *testing.T) {
	for value, want := range map[string]string{
		"1000000000": "1e+09 is out of range", "-1000000000": "-1e+09 is out of range", "1000000001": "stands where a whole number belongs", "-1000000001": "stands where a whole number belongs",
		"0.5": "0.5 stands where a whole number belongs", "-1": "-1 is out of range", "1e1": "", "2.0": "",
	} {
		_, err := file.Read(strings.NewReader(feeder(`"parallel": ` + value)))
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v, want %q", value, err, want)
		}
	}
}

// Where a problem stands is counted in lines and characters, not in bytes.
func TestPlacesAreCounted(t *testing.T) {
	for _, before := range []string{"", " ", "\n", "\r\n\t", "\n\n  "} {
		text := strings.Replace(sheet(`"parts": ["µé"]`), `["µé"]`, `[`+"\n"+before+`"µé"]`, 1)
		_, err := file.Read(strings.NewReader(text))
		var one *file.Error
		if !errors.As(err, &one) || one.Field != "parts[0]" {
			t.Fatalf("got %v", err)
		}
		lines := strings.Count(text[:strings.Index(text, `"µé"`)], "\n") + 1
		start := strings.LastIndex(text[:strings.Index(text, `"µé"`)], "\n") + 1
		column := len([]rune(text[start:strings.Index(text, `"µé"`)])) + 1
		if one.Line != lines || one.Column != column {
			t.Errorf("%q before: got line %d, column %d, want %d and %d", before, one.Line, one.Column, lines, column)
		}
	}
	_, err := file.Read(strings.NewReader(`{"format": "clampline", "µ": "é", "version": 7}`))
	var one *file.Error
	if !errors.As(err, &one) || one.Line != 1 || one.Column != 46 { // 24 before the letters, 10 with them, 11 of the name
		t.Errorf("a version behind letters of two bytes: got %v, want column 46", err)
	}
}

// A record is called by its name, cut at forty letters, unless that is its id.
func TestDifferencesAreShort(t *testing.T) {
	with := func(name, note string) *diagram.Document {
		return diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: name, Note: note})
			tx.SetSurge(diagram.Surge{ID: "surge-1", Path: diagram.LineToEarth, Wave: diagram.RingWave, Voltage: 6000, Current: 500, Order: len(note)})
		})
	}
	forty := strings.Repeat("ß", 40)
	for _, row := range []struct {
		first, second *diagram.Document
		want          []string
	}{
		{with("panel-1", ""), with("panel-1", "a"), []string{"panel (panel-1): note nothing → a", "surge case (surge-1): order nothing → 1"}},
		{with(forty, forty), with(forty, forty+"ß"), []string{"panel " + forty + " (panel-1): note " + forty + " → " + forty + "…", "surge case (surge-1): order 80 → 82"}},
		{with(forty+"ß", ""), diagram.New(), []string{"gone: panel " + forty + "… (panel-1)", "gone: surge case (surge-1)"}},
		{diagram.New(), with("", ""), []string{"added: panel (panel-1)", "added: surge case (surge-1)"}},
	} {
		if diff := cmp.Diff(row.want, file.Differences(row.first, row.second)); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
	}
}

// Of a library one generation is kept, and of a recovery copy as many as are asked for;
// the newest copy is listed first.
func TestGenerationsThatAreKept(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "protectors.json")
	for _, id := range []diagram.ID{"one", "two", "three"} {
		if err := file.SaveLibrary(path, &file.Library{Protectors: []diagram.Protector{{ID: id}}}); err != nil {
			t.Fatal(err)
		}
	}
	if names := namesIn(t, folder); len(names) != 2 {
		t.Errorf("of a library there are %q, want it and the one before", names)
	}
	for generations, want := range map[int]int{1: 1, 2: 2, 4: 4} {
		folder := t.TempDir()
		for i := range 6 {
			doc := diagram.New()
			diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Title: fmt.Sprint(i)}) })
			if err := (file.Keeping{Folder: folder, Generations: generations}).Save(doc); err != nil {
				t.Fatal(err)
			}
		}
		if names := namesIn(t, folder); len(names) != want+1 { // and the note
			t.Errorf("%d generations: got %q", generations, names)
		}
	}
	for i, name := range []string{"old", "new", "middle"} {
		if err := (file.Keeping{Folder: folder, Sheet: name, Generations: file.UsualGenerations}).Save(diagram.New()); err != nil {
			t.Fatal(err)
		}
		at := time.Unix([]int64{1000, 3000, 2000}[i], 0)
		if err := os.Chtimes(file.RecoveryPath(folder, name), at, at); err != nil {
			t.Fatal(err)
		}
	}
	copies, err := file.Recoveries(folder)
	if err != nil || len(copies) != 3 {
		t.Fatalf("got %v, %v", copies, err)
	}
	for i, want := range []string{"new", "middle", "old"} {
		if filepath.Base(copies[i].Original) != want || copies[i].Damaged != 0 || copies[i].Err != nil {
			t.Errorf("copy %d is %+v, want that of %s", i, copies[i], want)
		}
	}
}

// Three generations of a sheet are kept, and five of a copy, where nothing else is asked
// for; a copy is found under the first 24 digits of the SHA-256 of the path (sha256sum).
func TestUsualGenerations(t *testing.T) {
	folder, copies := t.TempDir(), t.TempDir()
	for i := range 8 {
		doc := diagram.New()
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Title: fmt.Sprint(i)}) })
		if err := errors.Join(filetest.Save(filepath.Join(folder, "a.clampline"), doc), (file.Keeping{Folder: copies, Generations: file.UsualGenerations}).Save(doc)); err != nil {
			t.Fatal(err)
		}
	}
	if names := namesIn(t, folder); len(names) != 1+3 {
		t.Errorf("of a sheet there are %q", names)
	}
	if names := namesIn(t, copies); len(names) != 5+1 { // and the note
		t.Errorf("of a copy there are %q", names)
	}
	if runtime.GOOS != "windows" {
		if got, want := file.RecoveryPath("", "/sheets/a.clampline"), "recovery-603789d5d1cb4428eb6c5b20.clampline"; got != want {
			t.Errorf("a copy is called %q, want %q", got, want)
		}
	}
}

func namesIn(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, entry := range entries {
		out = append(out, entry.Name())
	}
	return out
}

// A library has one backup: that of the library before.
func TestLibraryHasOneBackup(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "protectors.json")
	for _, id := range []diagram.ID{"a", "b", "c"} {
		if err := file.SaveLibrary(path, &file.Library{Protectors: []diagram.Protector{{ID: id}}}); err != nil {
			t.Fatal(err)
		}
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if diff := cmp.Diff([]string{"protectors.json", "protectors.json.bak"}, names); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	before, err := file.LoadLibrary(path + ".bak")
	if err != nil || len(before.Protectors) != 1 || before.Protectors[0].ID != "b" {
		t.Errorf("the backup has %+v (%v)", before, err)
	}
}
