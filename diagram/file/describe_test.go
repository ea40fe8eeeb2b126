package file

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/goccy/go-json"
	"github.com/google/go-cmp/cmp"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/geom"
)

// lister notes the members that a record is described with, as "type" or
// "type in unit" by path.
type lister struct {
	path  string
	found map[string]string
}

var _ fields = (*lister)(nil)

func (l *lister) note(name, what string) { l.found[l.path+"."+name] = what }

func (l *lister) record(_ *diagram.ID, _ *string, visit func()) {
	l.note("id", "string")
	visit()
}

func (l *lister) group(name string, visit func()) {
	outside := l.path
	l.note(name, "object")
	l.path += "." + name
	visit()
	l.path = outside
}

func (l *lister) text(name string, _ *string)          { l.note(name, "string") }
func (l *lister) flag(name string, _ *bool)            { l.note(name, "boolean") }
func (l *lister) count(name string, _ *int)            { l.note(name, "integer") }
func (l *lister) number(name, unit string, _ *float64) { l.note(name, "number in "+unit) }
func (l *lister) point(name string, v *geom.Point)     { (&pointLister{l}).visit(name, v) }
func (l *lister) mode(name string, v *diagram.ModeRating) {
	l.group(name, func() {
		l.flag("connected", &v.Connected)
		modeFields(l, v)
	})
}

type pointLister struct{ *lister }

func (l *pointLister) visit(name string, v *geom.Point) {
	l.group(name, func() {
		l.number("x", millimetres, &v.X)
		l.number("y", millimetres, &v.Y)
	})
}

func described() map[string]string {
	l := &lister{found: map[string]string{}}
	infoFields(l, &diagram.Info{})
	l.path = ".plan"
	planFields(l, &diagram.Plan{})
	l.path = ".part"
	partFields(l, &diagram.Part{})
	l.path = ".feeder"
	feederFields(l, &diagram.Feeder{})
	l.path = ".protector"
	protectorFields(l, &diagram.Protector{})
	l.path = ".surge"
	surgeFields(l, &diagram.Surge{})
	delete(l.found, ".info")
	return l.found
}

// published lists the same of the schema, and visits each member. Descriptions
// must name the unit of the code, which is looked up in want.
func published(t *testing.T, want map[string]string, visit func(path string, member map[string]any)) map[string]string {
	t.Helper()
	var root map[string]any
	if err := json.Unmarshal(assets.Schema(), &root); err != nil {
		t.Fatal(err)
	}
	definitions := root["$defs"].(map[string]any)
	found := map[string]string{}
	var walk func(node map[string]any, path string)
	walk = func(node map[string]any, path string) {
		members, _ := node["properties"].(map[string]any)
		for name, value := range members {
			member := value.(map[string]any)
			text, _ := member["description"].(string)
			if text == "" {
				t.Errorf("%s.%s has no description", path, name)
			}
			if reference, ok := member["$ref"].(string); ok {
				member = definitions[strings.TrimPrefix(reference, "#/$defs/")].(map[string]any)
			}
			found[path+"."+name] = sortOf(member, text, want[path+"."+name])
			visit(path+"."+name, member)
			walk(member, path+"."+name)
		}
	}
	walk(root["properties"].(map[string]any)["info"].(map[string]any), ".info")
	for _, name := range recordSorts() {
		walk(definitions[name].(map[string]any), "."+name)
	}
	return found
}

func sortOf(member map[string]any, description, want string) string {
	if member["enum"] != nil {
		return "string"
	}
	sort, _ := member["type"].(string)
	if _, unit, ok := strings.Cut(want, "number in "); ok && sort == "number" && strings.Contains(description, unit) {
		return want
	}
	return sort
}

// bare holds one record of each sort.
const bare = `{"format": "clampline", "version": 1, "plan": {"id": "plan-1"}, "part": {"id": "panel-1", "kind": "panel"},
	"feeder": {"id": "feeder-1", "from": {"part": "panel-1"}, "to": {"part": "load-1"}},
	"protector": {"id": "protector-1", "plan": "plan-1", "bus": "panel-1"},
	"surge": {"id": "surge-1", "path": "line to earth", "wave": "ring", "voltage": 6000, "current": 500}}`

// recordSorts are the names of the records in the schema.
func recordSorts() []string { return []string{"plan", "part", "feeder", "protector", "surge"} }

// limitsOf returns what the model says of a member that is far out of range.
func limitsOf(t *testing.T, path string) string {
	t.Helper()
	var top map[string]any
	if err := json.Unmarshal([]byte(bare), &top); err != nil {
		t.Fatal(err)
	}
	names := strings.Split(path[1:], ".")
	object := top
	for _, name := range names[:len(names)-1] {
		if object[name] == nil {
			object[name] = map[string]any{}
		}
		object = object[name].(map[string]any)
	}
	object[names[len(names)-1]] = -1e9
	for _, name := range recordSorts() {
		top[name+"s"] = []any{top[name]}
	}
	top["parts"] = append(top["parts"].([]any), map[string]any{"id": "load-1", "kind": "load"})
	text, err := json.Marshal(top)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Read(bytes.NewReader(text))
	var one *Error
	if !errors.As(err, &one) {
		t.Fatalf("%s: got %v, want that it is out of range", path, err)
	}
	return one.Remedy
}

// remedyOf words the limits of a number in the schema as the model does.
func remedyOf(member map[string]any) string {
	if ways, ok := member["oneOf"].([]any); ok {
		only, rest := ways[0].(map[string]any), ways[1].(map[string]any)
		return fmt.Sprintf("use %g or a number from %g to %g", only["const"], rest["minimum"], rest["maximum"])
	}
	return fmt.Sprintf("use a number from %g to %g", member["minimum"], member["maximum"])
}

// grouped are numbers of which the thousands stand apart.
var grouped = regexp.MustCompile(`\d+(\x{a0}\d{3})+`)

func TestSchemaHasTheLimitsOfTheModel(t *testing.T) {
	numbers := 0
	published(t, nil, func(path string, member map[string]any) {
		if member["type"] != "number" && member["type"] != "integer" {
			return
		}
		numbers++
		got, want := remedyOf(member), limitsOf(t, path)
		want = grouped.ReplaceAllStringFunc(want, func(number string) string {
			v, _ := strconv.ParseFloat(strings.ReplaceAll(number, "\u00a0", ""), 64)
			return fmt.Sprintf("%g", v)
		})
		if got != want && !strings.HasPrefix(want, got+" ") { // a unit may follow; units are compared below
			t.Errorf("%s: the schema says %q, the model %q", path, got, want)
		}
	})
	if numbers < 50 {
		t.Errorf("only %d numbers were compared", numbers)
	}
}

func TestSchemaHasTheMembersTypesAndUnitsOfTheCode(t *testing.T) {
	want := described()
	if len(want) < 100 {
		t.Fatalf("only %d members are described", len(want))
	}
	got := published(t, want, func(string, map[string]any) {})
	if diff := cmp.Diff(slices.Sorted(maps.Keys(want)), slices.Sorted(maps.Keys(got))); diff != "" {
		t.Errorf("members (-code +schema):\n%s", diff)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("types and units (-code +schema):\n%s", diff)
	}
}
