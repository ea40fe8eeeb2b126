package file

import (
	"strings"
	"testing"

	"github.com/goccy/go-json"
	"github.com/google/go-cmp/cmp"

	"clampline/assets"
	"clampline/diagram"
)

// A record of a library is one of a sheet without its place, in the code and in
// the schemas; what the two schemas share is the same to the word.
func TestKindIsAProtectorWithoutItsPlace(t *testing.T) {
	l := &lister{path: ".protector", found: map[string]string{}}
	kindFields(l, &diagram.Protector{})
	want := map[string]string{}
	for path, what := range described() {
		if strings.HasPrefix(path, ".protector.") {
			want[path] = what
		}
	}
	for _, place := range []string{"plan", "bus", "offset"} {
		delete(want, ".protector."+place)
	}
	if diff := cmp.Diff(want, l.found); diff != "" {
		t.Errorf("members (-sheet +library):\n%s", diff)
	}
}

func TestLibrarySchemaIsThatOfTheSheet(t *testing.T) {
	sheet, library := definitions(t, assets.Schema()), definitions(t, assets.LibrarySchema())
	for _, name := range []string{"id", "text", "system", "lead", "mode"} {
		if diff := cmp.Diff(sheet[name], library[name]); diff != "" {
			t.Errorf("%s (-sheet +library):\n%s", name, diff)
		}
	}
	want, got := propertiesOf(sheet["protector"]), propertiesOf(library["protector"])
	for _, place := range []string{"plan", "bus", "offset"} {
		delete(want, place)
	}
	for _, name := range []string{"id", "name"} { // which are described otherwise
		delete(want[name].(map[string]any), "description")
		delete(got[name].(map[string]any), "description")
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("protector (-sheet +library):\n%s", diff)
	}
	if len(library) != 6 {
		t.Errorf("got %d definitions, want the six that were compared", len(library))
	}
}

func definitions(t *testing.T, schema []byte) map[string]any {
	t.Helper()
	var root map[string]any
	if err := json.Unmarshal(schema, &root); err != nil {
		t.Fatal(err)
	}
	return root["$defs"].(map[string]any)
}

func propertiesOf(definition any) map[string]any {
	return definition.(map[string]any)["properties"].(map[string]any)
}
