package file_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

const schemaAddress = "https://clampline.example/schema/v1.json"

func schema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource(schemaAddress, schemaMembers(t)); err != nil {
		t.Fatal(err)
	}
	compiled, err := compiler.Compile(schemaAddress)
	if err != nil {
		t.Fatal(err)
	}
	return compiled
}

func schemaMembers(t *testing.T) any {
	t.Helper()
	members, err := jsonschema.UnmarshalJSON(bytes.NewReader(assets.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	return members
}

func validate(s *jsonschema.Schema, text string) error {
	value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		return err
	}
	return s.Validate(value)
}

func TestWhatIsWrittenFitsTheSchema(t *testing.T) {
	s := schema(t)
	for seed := range uint64(200) {
		text := write(t, diagramtest.Random(diagramtest.Rand(seed), int(seed%17)))
		if err := validate(s, text); err != nil {
			t.Fatalf("seed %d: %v\n%s", seed, err, text)
		}
	}
	for _, doc := range []*diagram.Document{diagram.New(), diagramtest.Building(200), everywhere(t, strangeAsKept)} {
		if err := validate(s, write(t, doc)); err != nil {
			t.Error(err)
		}
	}
}

func TestSamplesFitTheSchema(t *testing.T) {
	s := schema(t)
	for _, path := range samples(t, file.Current) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := validate(s, string(text)); err != nil {
			t.Errorf("%s: %v", filepath.Base(path), err)
		}
	}
}

func TestSchemaRefusesWhatReadRefuses(t *testing.T) {
	s := schema(t)
	for _, test := range append(notOurs(), append(notAsDescribed(), notConsistent()...)...) {
		t.Run(test.name, func(t *testing.T) {
			err := validate(s, test.text)
			if test.semantic && err != nil {
				t.Errorf("the schema tells more than its list of limits says: %v", err)
			}
			if !test.semantic && err == nil {
				t.Error("Read refuses it, and the schema takes it")
			}
		})
	}
}

// at walks into decoded JSON.
func at(value any, names ...string) any {
	for _, name := range names {
		members, _ := value.(map[string]any)
		value = members[name]
	}
	return value
}

// resolved follows a reference within the schema.
func resolved(root, node any) any {
	if ref, ok := at(node, "$ref").(string); ok {
		return at(root, "$defs", strings.TrimPrefix(ref, "#/$defs/"))
	}
	return node
}

// property returns the description of the member at the path, such as
// "part.board.rating".
func property(root any, path string) any {
	names := strings.Split(path, ".")
	node := at(root, "$defs", names[0])
	if names[0] == "info" {
		node = at(root, "properties", "info")
	}
	for _, name := range names[1:] {
		node = resolved(root, at(node, "properties", name))
	}
	return node
}

// wrongWords are members of a sheet, by path, with a word that is not in their
// list, so that the document answers with the list.
func wrongWords() map[string]string {
	part := func(text string) string { return `"parts": [{"id": "x", "kind": "panel", ` + text + `}]` }
	feeder := func(text string) string {
		return twoPart + `, "feeders": [{"id": "x", "from": {"part": "panel-1"}, "to": {"part": "load-1"}, ` + text + `}]`
	}
	protector := func(text string) string {
		return onePart + `, "protectors": [{"id": "x", "bus": "panel-1", "plan": "plan-1", ` + text + `}]`
	}
	return map[string]string{
		"info.codes.practice":           `"info": {"codes": {"practice": "?"}}`,
		"info.codes.surges":             `"info": {"codes": {"surges": "?"}}`,
		"info.codes.nec":                `"info": {"codes": {"nec": "?"}}`,
		"info.codes.uc":                 `"info": {"codes": {"uc": "?"}}`,
		"info.codes.risk":               `"info": {"codes": {"risk": "?"}}`,
		"info.codes.fault":              `"info": {"codes": {"fault": "?"}}`,
		"part.kind":                     `"parts": [{"id": "x", "kind": "?"}]`,
		"part.system.wiring":            part(`"system": {"wiring": "?"}`),
		"part.system.earthing":          part(`"system": {"earthing": "?"}`),
		"part.transfer.position":        part(`"transfer": {"position": "?"}`),
		"part.board.mounting":           part(`"board": {"mounting": "?"}`),
		"part.load.connection":          part(`"load": {"connection": "?"}`),
		"part.load.terminals":           part(`"load": {"terminals": "?"}`),
		"part.withstand.kind":           part(`"withstand": {"kind": "?"}`),
		"part.load.switching":           part(`"load": {"switching": "?"}`),
		"part.exposure.occupancy":       part(`"exposure": {"occupancy": "?"}`),
		"part.exposure.surges":          part(`"exposure": {"surges": "?"}`),
		"part.exposure.lightning":       part(`"exposure": {"lightning": "?"}`),
		"part.exposure.surroundings":    part(`"exposure": {"surroundings": "?"}`),
		"part.use":                      part(`"use": "?"`),
		"feeder.material":               feeder(`"material": "?"`),
		"feeder.raceway":                feeder(`"raceway": "?"`),
		"feeder.lay":                    feeder(`"lay": "?"`),
		"feeder.switch.kind":            feeder(`"switch": {"kind": "?"}`),
		"protector.type":                protector(`"type": "?"`),
		"protector.rating":              protector(`"rating": "?"`),
		"protector.leads.run":           protector(`"leads": {"run": "?"}`),
		"protector.installed.indicator": protector(`"installed": {"indicator": "?"}`),
		"surge.path":                    `"surges": [{"id": "x", "path": "?", "wave": "ring", "voltage": 1, "current": 1}]`,
		"surge.places":                  `"surges": [{"id": "x", "path": "line to earth", "places": "?", "wave": "ring", "voltage": 1, "current": 1}]`,
		"surge.category":                `"surges": [{"id": "x", "path": "line to earth", "places": "every bus", "category": "?", "wave": "ring", "voltage": 1, "current": 1}]`,
		"surge.switching":               `"surges": [{"id": "x", "path": "line to earth", "places": "every bus", "switching": "?", "wave": "ring", "voltage": 1, "current": 1}]`,
		"surge.wave":                    `"surges": [{"id": "x", "path": "line to line", "wave": "?", "voltage": 1, "current": 1}]`,
	}
}

func TestEnumerationsAreThoseOfTheModel(t *testing.T) {
	root := schemaMembers(t)
	for path, text := range wrongWords() {
		t.Run(path, func(t *testing.T) {
			_, err := file.Read(strings.NewReader(sheet(text)))
			var one *file.Error
			if !errors.As(err, &one) {
				t.Fatalf("got %v, want an *Error with the list", err)
			}
			if got, want := listOf(property(root, path)), strings.TrimPrefix(one.Remedy, "use one of "); got != want {
				t.Errorf("the schema has %s\nthe model    %s", got, want)
			}
		})
	}
}

// listOf returns the words that the member may hold, apart from none.
func listOf(node any) string {
	words, _ := at(node, "enum").([]any)
	var out []string
	for _, word := range words {
		if word != "" {
			out = append(out, fmt.Sprintf("%q", word))
		}
	}
	return strings.Join(out, ", ")
}

func TestPortsAndModesAreThoseOfTheModel(t *testing.T) {
	root := schemaMembers(t)
	var ports []string
	for _, kind := range []diagram.Kind{diagram.Transformer, diagram.TransferSwitch} {
		for _, port := range kind.Ports() {
			ports = append(ports, fmt.Sprintf("%q", string(port)))
		}
	}
	if got, want := listOf(property(root, "feeder.from.port")), strings.Join(ports, ", "); got != want {
		t.Errorf("got ports %s, want %s", got, want)
	}
	modes, _ := at(property(root, "protector.modes"), "properties").(map[string]any)
	for _, mode := range diagram.Modes() {
		if modes[mode.String()] == nil {
			t.Errorf("the schema lacks the mode %s", mode)
		}
	}
	if len(modes) != diagram.ModeCount {
		t.Errorf("got %d modes, want %d", len(modes), diagram.ModeCount)
	}
}

func TestEveryEnumerationOfTheSchemaIsChecked(t *testing.T) {
	root := schemaMembers(t)
	found := enumerations(root, root, nil)
	slices.Sort(found)
	for _, path := range slices.Compact(found) {
		_, checked := wrongWords()[path]
		if !checked && !strings.HasSuffix(path, ".port") && !strings.Contains(path, ".primary.") && !strings.HasPrefix(path, "protector.system") {
			t.Errorf("%s has a list of words that no test compares with the model", path)
		}
	}
}

// enumerations lists the members with a list of words.
func enumerations(root, node any, path []string) []string {
	if len(path) == 0 {
		out := enumerations(root, at(root, "properties", "info"), []string{"info"})
		for _, name := range []string{"part", "feeder", "protector", "plan", "surge"} {
			out = append(out, enumerations(root, at(root, "$defs", name), []string{name})...)
		}
		return out
	}
	var out []string
	node = resolved(root, node)
	if at(node, "enum") != nil {
		out = append(out, strings.Join(path, "."))
	}
	inner, _ := at(node, "properties").(map[string]any)
	for name, member := range inner {
		out = append(out, enumerations(root, member, append(slices.Clone(path), name))...)
	}
	return out
}
