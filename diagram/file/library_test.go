package file_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

// shelf returns the text of a library with the records.
func shelf(records ...string) string {
	return "{\"format\": \"clampline library\", \"version\": 1, \"protectors\": [\n" + strings.Join(records, ",\n") + "]}"
}

func readLibrary(t *testing.T, text string) *file.Library {
	t.Helper()
	library, err := file.ReadLibrary(strings.NewReader(text))
	if err != nil {
		t.Fatalf("read: %v\n%s", err, text)
	}
	return library
}

func writeLibrary(t *testing.T, library *file.Library) string {
	t.Helper()
	var out bytes.Buffer
	if err := file.WriteLibrary(&out, library); err != nil {
		t.Fatalf("write: %v", err)
	}
	return out.String()
}

// randomLibrary returns the protectors of a random document without their
// places, in another order than that of their ids.
func randomLibrary(seed uint64) *file.Library {
	library := &file.Library{}
	for p := range diagramtest.Random(diagramtest.Rand(seed), 20).Protectors() {
		p.Plan, p.Bus, p.Offset, p.Installed = "", "", 0, diagram.Installed{}
		library.Protectors = append(library.Protectors, p)
	}
	slices.Reverse(library.Protectors)
	return library
}

func librarySchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	const address = "https://clampline.example/schema/library-v1.json"
	members, err := jsonschema.UnmarshalJSON(bytes.NewReader(assets.LibrarySchema()))
	if err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource(address, members); err != nil {
		t.Fatal(err)
	}
	compiled, err := compiler.Compile(address)
	if err != nil {
		t.Fatal(err)
	}
	return compiled
}

func TestLibraryWrittenThenReadIsTheSame(t *testing.T) {
	s := librarySchema(t)
	for seed := range uint64(60) {
		want := randomLibrary(seed)
		text := writeLibrary(t, want)
		got := readLibrary(t, text)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("seed %d: (-want +got):\n%s", seed, diff)
		}
		if again := writeLibrary(t, got); again != text {
			t.Fatalf("seed %d: the second file differs:\n%s", seed, cmp.Diff(text, again))
		}
		if err := validate(s, text); err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, text)
		}
	}
}

func TestEmptyLibrary(t *testing.T) {
	const want = `{
  "$schema": "https://clampline.example/schema/library-v1.json",
  "format": "clampline library",
  "version": 1,
  "protectors": []
}
`
	if diff := cmp.Diff(want, writeLibrary(t, &file.Library{})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for _, text := range []string{want, `{"format": "clampline library", "version": 1}`} {
		if got := readLibrary(t, text); len(got.Protectors) != 0 || got.Extra != "" {
			t.Errorf("got %+v, want an empty library", got)
		}
	}
}

func TestLibraryKeepsWhatItDoesNotKnow(t *testing.T) {
	text := `{"format": "clampline library", "version": 1, "owner": {"name": "A"},
		"protectors": [{"id": "a", "colour": "red", "leads": {"run": "twisted", "ferrules": [1, 2]}}]}`
	got := writeLibrary(t, readLibrary(t, text))
	for _, want := range []string{`"owner": {`, `"colour": "red"`, `"ferrules": [1, 2]`, `"run": "twisted"`} {
		if !strings.Contains(got, want) {
			t.Errorf("got no %s in\n%s", want, got)
		}
	}
}

// A record copied from a sheet is one of a library, wherever it stood.
func TestLibraryLeavesOutWhereAProtectorStands(t *testing.T) {
	got := readLibrary(t, shelf(`{"id": "a", "plan": "plan-3", "bus": "panel-9", "offset": 12, "name": "SPD-1", "in": 20000}`))
	want := []diagram.Protector{{ID: "a", Name: "SPD-1", In: 20e3}}
	if diff := cmp.Diff(want, got.Protectors); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	placed := want[0]
	placed.Plan, placed.Bus, placed.Offset = "plan-3", "panel-9", math.Inf(1)
	if text := writeLibrary(t, &file.Library{Protectors: []diagram.Protector{placed}}); strings.Contains(text, "plan") || strings.Contains(text, "bus") {
		t.Errorf("the place is written:\n%s", text)
	}
}

// brokenLibraries are files that must be refused.
func brokenLibraries() []broken {
	return []broken{
		{name: "empty", text: "", want: "the file is empty; choose another file"},
		{name: "plain text", text: "Dear reader", want: "this is no Clampline library of protectors: it does not begin with a brace; choose a file that was saved as a library"},
		{name: "a sheet", text: sheet(""), want: `this is no Clampline library of protectors: its member "format" is not "clampline library"`, line: 1},
		{name: "newer", text: `{"format": "clampline library", "version": 2}`, where: "version", want: "format 2, and this program knows up to 1; update the program, or save the library of protectors for an older one there", line: 1},
		{name: "no version", text: `{"format": "clampline library"}`, where: "version", want: `write "version": 1`, line: 1},
		{name: "cut short", text: shelf(`{"id": "a", "in": 2`)[:len(shelf(`{"id": "a", "in": 2`))-2], want: "the file ends where a comma or a closing brace belongs; it was cut short", line: 2},
		{name: "not UTF-8", text: shelf("{\"id\": \"a\", \"name\": \"\xff\"}"), where: "line 2, column 22", want: "save it as UTF-8", semantic: true, line: 2},
		{name: "name twice", text: shelf(`{"id": "a", "in": 1, "in": 2}`), want: `the name "in" stands twice in one object`, semantic: true, line: 2},
		{name: "nested too deep", text: shelf(strings.Repeat("[", 70)), want: "nested more than 64 deep; the program wrote no such file", line: 2},
		{name: "list as an object", text: `{"format": "clampline library", "version": 1, "protectors": {}}`, where: "protectors", want: "an object stands where a list belongs", line: 1},
		{name: "record as a text", text: shelf(`"type 2"`), where: "protectors[0]", want: "stands where an object belongs", line: 2},
		{name: "no id", text: shelf(`{"name": "A"}`), where: "line 2, column 1, protectors[0]", want: "the id is missing; give the record", line: 2},
		{name: "bad id", text: shelf(`{"id": "type 2"}`), where: "protectors[0].id", want: `"type 2" is no id; use up to 64 letters`, line: 2},
		{name: "id twice", text: shelf(`{"id": "a"}`, `{"id": "a"}`), where: "line 3, column 8, protectors[1].id (a)", want: `two records bear the id "a": protectors[0] has it too; rename one`, semantic: true, line: 3},
		{name: "current with a unit", text: shelf(`{"id": "a", "in": "20 kA"}`), where: "line 2, column 19, protectors[0].in (a)", want: `the text "20 kA" stands where a number in amperes belongs; write a plain number in amperes`, line: 2},
		{name: "unknown type", text: shelf(`{"id": "a", "type": "type 9"}`), where: "protectors[0].type (a)", want: `"type 9" is not known; use one of "type 1"`, line: 2},
		{name: "unknown earthing", text: shelf(`{"id": "a", "system": {"earthing": "TN"}}`), where: "protectors[0].system.earthing (a)", want: `"TN" is not known; use one of "solid"`, line: 2},
		{name: "level negative", text: shelf(`{"id": "a", "modes": {"L-N": {"level": -700}}}`), where: "protectors[0].modes.L-N.level (a)", want: "-700 is out of range; use 0 or a number from 0.001 to 1e+06 V", line: 2},
		{name: "lead too long", text: shelf(`{"id": "a", "leads": {"earth": {"length": 2000}}}`), where: "protectors[0].leads.earth.length (a)", want: "2000 is out of range; use 0 or a number from 1e-06 to 1000 m", line: 2},
		{name: "number beyond all", text: shelf(`{"id": "a", "sccr": 1e999}`), where: "protectors[0].sccr (a)", want: "1e999 is too large for a number", line: 2},
		{name: "name too long", text: shelf(`{"id": "a", "name": "` + strings.Repeat("x", 20001) + `"}`), where: "protectors[0].name (a)", want: "the text is too long", line: 2},
		{name: "least breaker as a text", text: shelf(`{"id": "a", "breaker": {"least": "30"}}`), where: "protectors[0].breaker.least (a)", want: "write a plain number in amperes", line: 2},
	}
}

func TestReadLibraryRefusesAndSaysWhy(t *testing.T) {
	s := librarySchema(t)
	for _, test := range brokenLibraries() {
		t.Run(test.name, func(t *testing.T) {
			library, err := file.ReadLibrary(strings.NewReader(test.text))
			var one *file.Error
			if !errors.As(err, &one) || library != nil {
				t.Fatalf("got %v and error %v, want an *Error", library, err)
			}
			if message := err.Error(); !strings.Contains(message, test.want) || !strings.Contains(message, test.where) {
				t.Errorf("got %s\nwant %q and %q in it", message, test.where, test.want)
			}
			if one.Line != test.line || one.Remedy == "" || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one problem on line %d with a remedy", err, test.line)
			}
			if !test.semantic && validate(s, test.text) == nil {
				t.Error("ReadLibrary refuses it, and the schema takes it")
			}
		})
	}
}

func TestWriteLibraryRefusesWhatCannotBeRead(t *testing.T) {
	tests := []struct {
		name, want string
		library    file.Library
	}{
		{"no id", "is no id", file.Library{Protectors: []diagram.Protector{{}}}},
		{"id twice", "a, id: two protectors of the library bear this id; rename one of them", file.Library{Protectors: []diagram.Protector{{ID: "a"}, {ID: "a"}}}},
		{"no number", "a, in: NaN is out of range", file.Library{Protectors: []diagram.Protector{{ID: "a", In: math.NaN()}}}},
		{"extra of a record", "its extra members are no JSON object", file.Library{Protectors: []diagram.Protector{{ID: "a", Extra: "["}}}},
		{"extra of the file", "its extra members are no JSON object", file.Library{Extra: "7"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var out bytes.Buffer
			if err := file.WriteLibrary(&out, &test.library); err == nil || !strings.Contains(err.Error(), test.want) || out.Len() > 0 {
				t.Errorf("got error %v and %d bytes, want %q and none", err, out.Len(), test.want)
			}
		})
	}
}

// The ids of the document that checks a library are no ids of the user's.
func TestLibraryMayUseAnyID(t *testing.T) {
	for _, id := range []string{"plan-1", "board-1", "panel-1"} {
		readLibrary(t, shelf(`{"id": "`+id+`"}`))
	}
}

func TestSaveLibraryKeepsThePreviousFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "folder", "protectors.json")
	missing, err := file.LoadLibrary(path)
	if err != nil || len(missing.Protectors) != 0 {
		t.Fatalf("got %v, %v, want that a missing file is an empty library", missing, err)
	}
	for _, id := range []diagram.ID{"one", "two"} {
		if err := file.SaveLibrary(path, &file.Library{Protectors: []diagram.Protector{{ID: id}}}); err != nil {
			t.Fatal(err)
		}
	}
	for name, want := range map[string]diagram.ID{path: "two", path + file.BackupExtension: "one"} {
		got, err := file.LoadLibrary(name)
		if err != nil || len(got.Protectors) != 1 || got.Protectors[0].ID != want {
			t.Errorf("%s: got %+v, %v, want %s", filepath.Base(name), got, err, want)
		}
	}
	if err := file.SaveLibrary(path, &file.Library{Protectors: []diagram.Protector{{}}}); err == nil {
		t.Error("a library that could not be read again was saved")
	}
	if got, err := file.LoadLibrary(path); err != nil || got.Protectors[0].ID != "two" {
		t.Errorf("after a failed save: got %+v, %v", got, err)
	}
}

func TestLoadLibraryNamesTheBackup(t *testing.T) {
	path := filepath.Join(t.TempDir(), "protectors.json")
	for _, name := range []string{path, path + file.BackupExtension} {
		if err := os.WriteFile(name, []byte("{"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	_, err := file.LoadLibrary(path)
	if err == nil || !strings.Contains(err.Error(), "the file before it is kept as protectors.json.bak") {
		t.Errorf("got %v, want that it names the backup", err)
	}
	if _, err := file.LoadLibrary(filepath.Dir(path)); err == nil || !strings.Contains(err.Error(), "it is a folder") {
		t.Errorf("got %v, want that it is a folder", err)
	}
}

// A figure that was changed behind the back of the program is told, with the file that
// can be had instead; a library as it was saved is not doubted.
func TestLoadLibraryDoubtsWhatWasChanged(t *testing.T) {
	path := filepath.Join(t.TempDir(), "protectors.json")
	for _, in := range []float64{10e3, 20e3} {
		if err := file.SaveLibrary(path, &file.Library{Protectors: []diagram.Protector{{ID: "one", In: in}}}); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := file.LoadLibrary(path); err != nil || got.Warning != "" {
		t.Errorf("as it was saved: got %+v, %v", got, err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(text), "20000", "70000", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	got, err := file.LoadLibrary(path)
	if err != nil || got.Protectors[0].In != 70e3 {
		t.Fatalf("got %+v, %v; want it as it stands", got, err)
	}
	if !strings.Contains(got.Warning, "its checksum does not fit") || !strings.Contains(got.Warning, "protectors.json.bak") {
		t.Errorf("it is not doubted: %q", got.Warning)
	}
}
