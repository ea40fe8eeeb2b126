package library_test

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/library"
)

// shelf returns a user's library with protectors of these names.
func shelf(t *testing.T, names ...string) *library.Own {
	t.Helper()
	own := &library.Own{}
	for _, name := range names {
		if _, err := own.Add(diagram.Protector{Name: name, In: 20e3}); err != nil {
			t.Fatal(err)
		}
	}
	return own
}

func TestAddGivesAFreshIDAndNoPlace(t *testing.T) {
	own := shelf(t, "one", "two")
	onSheet := diagram.Protector{ID: "protector-4", Plan: "plan-1", Bus: "panel-1", Offset: 8, Name: "SPD-4", Type: diagram.Type2}
	got, err := own.Add(onSheet)
	want := library.Entry{Protector: diagram.Protector{ID: "own-3", Name: "SPD-4", Type: diagram.Type2}, Own: true}
	if err != nil || got != want {
		t.Errorf("got %+v, %v, want %+v", got, err, want)
	}
	if diff := cmp.Diff("own-1 own-2 own-3", idsOf(own.Entries())); diff != "" {
		t.Error(diff)
	}
	own.Remove("own-1")
	if e, err := own.Add(onSheet); err != nil || e.Protector.ID != "own-4" {
		t.Errorf("after one was removed: got %s, %v, want own-4", e.Protector.ID, err)
	}
}

func TestReplaceAndRemove(t *testing.T) {
	own := shelf(t, "one", "two", "three")
	if err := own.Replace(diagram.Protector{ID: "own-2", Name: "second", Plan: "plan-1"}); err != nil {
		t.Fatal(err)
	}
	if got, want := own.Entries()[1].Protector, (diagram.Protector{ID: "own-2", Name: "second"}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if err := own.Replace(diagram.Protector{ID: "own-9"}); err == nil || !strings.Contains(err.Error(), "own-9: it is not in your library; add it instead") {
		t.Errorf("got %v, want that it is not there", err)
	}
	if !own.Remove("own-1") || own.Remove("own-1") {
		t.Error("Remove does not report whether there was one")
	}
	if got := idsOf(own.Entries()); got != "own-2 own-3" {
		t.Errorf("got %s, want own-2 own-3", got)
	}
}

func TestOwnRefusesWhatADocumentWould(t *testing.T) {
	own := shelf(t, "one")
	before := own.Entries()
	bad := diagram.Protector{ID: "own-1", In: math.NaN()}
	_, added := own.Add(bad)
	_, imported := own.Import([]library.Entry{{Protector: diagram.Protector{ID: "good"}}, {Protector: bad}})
	_, twice := own.Import([]library.Entry{{Protector: diagram.Protector{ID: "a"}}, {Protector: diagram.Protector{ID: "a", In: 1}}})
	for name, err := range map[string]error{"Add": added, "Replace": own.Replace(bad), "Import": imported, "Import of one id twice": twice} {
		if invalid := (*diagram.InvalidError)(nil); !errors.As(err, &invalid) {
			t.Errorf("%s: got %v, want an *InvalidError", name, err)
		}
	}
	if diff := cmp.Diff(before, own.Entries()); diff != "" {
		t.Errorf("it changed all the same (-before +after):\n%s", diff)
	}
}

func TestEntriesAreTheCallers(t *testing.T) {
	own := shelf(t, "one")
	own.Entries()[0].Protector.Name = "spoilt"
	if got := own.Entries()[0].Protector.Name; got != "one" {
		t.Errorf("got %q, want one", got)
	}
}

func TestImportOverwritesNothing(t *testing.T) {
	own := shelf(t, "one", "two")
	mine := own.Entries()
	kind := library.BuiltIn()[0]
	altered := kind.Protector
	altered.In = 5e3
	from := []library.Entry{
		{Protector: mine[0].Protector},                              // as it is here
		{Protector: diagram.Protector{ID: "own-2", Name: "theirs"}}, // other than here
		{Protector: diagram.Protector{ID: "own-7", Name: "new", Plan: "plan-1"}},
		kind, // as it comes with the program
		{Protector: func() diagram.Protector { p := altered; p.ID = library.BuiltIn()[1].Protector.ID; return p }()},
	}
	got, err := own.Import(from)
	if err != nil {
		t.Fatal(err)
	}
	added := library.Entry{Protector: diagram.Protector{ID: "own-7", Name: "new"}, Own: true}
	want := library.Imported{
		Added: []library.Entry{added},
		Same:  []library.Entry{mine[0], kind},
		Differ: []library.Conflict{
			{Mine: mine[1], Theirs: library.Entry{Protector: from[1].Protector, Own: true}},
			{Mine: library.BuiltIn()[1], Theirs: library.Entry{Protector: from[4].Protector, Own: true}},
		},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(append(mine, added), own.Entries()); diff != "" {
		t.Errorf("library (-want +got):\n%s", diff)
	}
	again, err := own.Import([]library.Entry{added})
	if err != nil || len(again.Added) != 0 || len(again.Same) != 1 {
		t.Errorf("a second time: got %+v, %v, want that it is the same", again, err)
	}
}

func TestOwnKeepsWhatItsFileHeldForOthers(t *testing.T) {
	path := filepath.Join(t.TempDir(), "protectors.json")
	text := `{"format": "clampline library", "version": 1, "owner": "A", "protectors": [{"id": "a", "colour": "red"}]}`
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	own, err := library.LoadOwn(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := own.Add(diagram.Protector{Name: "B"}); err != nil {
		t.Fatal(err)
	}
	for _, e := range own.Entries() {
		if !e.Own {
			t.Errorf("%s counts as one that comes with the program", e.Protector.ID)
		}
	}
	if err := own.Save(path); err != nil {
		t.Fatal(err)
	}
	saved, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"owner": "A"`, `"colour": "red"`, `"id": "own-1"`} {
		if !strings.Contains(string(saved), want) {
			t.Errorf("got no %s in\n%s", want, saved)
		}
	}
}

func TestMissingFileIsAnEmptyLibrary(t *testing.T) {
	own, err := library.LoadOwn(filepath.Join(t.TempDir(), "none", "protectors.json"))
	if err != nil || len(own.Entries()) != 0 {
		t.Errorf("got %v, %v, want an empty library", own, err)
	}
}

// Fresh ids count on from the highest number, whatever else an id looks like.
func TestFreshIDs(t *testing.T) {
	for _, row := range []struct{ has, want string }{
		{"", "own-1"}, {"own-7", "own-8"}, {"own-x", "own-1"}, {"own-", "own-1"}, {"7", "own-1"}, {"mine-7", "own-1"}, {"own-7b", "own-1"},
		{"own-1073741823", "own-1073741824"}, {"own-1073741824", "own-1"}, {"own-99999999999999999999", "own-1"}, // beyond what is counted
	} {
		own := &library.Own{}
		if row.has != "" {
			if _, err := own.Import([]library.Entry{{Protector: diagram.Protector{ID: diagram.ID(row.has)}}}); err != nil {
				t.Fatal(err)
			}
		}
		if e, err := own.Add(diagram.Protector{}); err != nil || string(e.Protector.ID) != row.want {
			t.Errorf("after %q: got %s, %v; want %s", row.has, e.Protector.ID, err, row.want)
		}
	}
}
