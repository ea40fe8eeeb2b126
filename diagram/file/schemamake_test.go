package file

import (
	"encoding/base64"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/goccy/go-json"

	"clampline/diagram"
)

// groupHelp says what the groups of members are, by the ends of their places.
var groupHelp = map[string]string{
	"info": "What the sheet says of itself.", "issue": "What stands at the head of what is handed over, besides the title.", "codes": "By which rules the sheet is checked; what is absent takes the usual ones.", "costs": "How the firm that does the work prices it, in the currency of the sheet.",
	"at": "The middle of the symbol.", "system": "What a set of conductors carries: what a supply or generator delivers, the secondary side of a transformer, what the nameplate of a board says (absent, it is found from its supply), what a protector is made for.",
	"source": "What a supply or generator is.", "transfer": "What a transfer switch is.", "transformer": "What a transformer is, besides its secondary system.",
	"primary": "The system on its primary side.", "board": "What a switchboard or panel is.", "load": "What a load is.",
	"withstand": "The surge that the equipment stands, stated in the way that \"kind\" names.", "exposure": "What the surroundings of a supply bring, and whom its building serves.",
	"from": "The end at the part that feeds.", "to": "The end at the part that is fed.", "switch": "The switch at the head of the feeder.",
	"modes": "What it has in each mode that is connected. L is any line, N the neutral, G earth (ground). A mode is connected where it is present, unless it says otherwise.",
	"L-N":   "Line to neutral.", "L-G": "Line to earth.", "N-G": "Neutral to earth.", "L-L": "Line to line.",
	"breaker": "The overcurrent device that feeds it.", "leads": "The conductors from the bus to the protector. All line conductors are alike.",
	"installed": "What is known of it once it hangs in its place.",
	"phase":     "Each line conductor.", "neutral": "The neutral conductor.", "earth": "The earth conductor.",
}

// schemaOf describes the members of an object: those of a list of fields from a
// depth of their names on, after those given.
func schemaOf[R any](t *testing.T, help string, list []diagram.Field[R], depth int, members object) object {
	needed := []any{}
	for _, m := range members {
		needed = append(needed, m.name)
	}
	for len(list) > 0 {
		name := list[0].Names()[depth]
		n := 1
		for n < len(list) && list[n].Names()[depth] == name {
			n++
		}
		if slices.ContainsFunc(list[:n], func(f diagram.Field[R]) bool { return f.Needed }) {
			needed = append(needed, name)
		}
		if len(list[0].Names()) == depth+1 {
			members = append(members, member{name, leafSchema(t, &list[0])})
		} else {
			if groupHelp[name] == "" {
				t.Errorf("nothing is said of the group %s", name)
			}
			members = append(members, member{name, schemaOf(t, groupHelp[name], list[:n], depth+1, nil)})
		}
		list = list[n:]
	}
	out := object{{"description", help}, {"type", "object"}}
	if len(needed) > 0 {
		out = append(out, member{"required", needed})
	}
	out = append(out, member{"properties", members})
	if help == groupHelp["withstand"] {
		out = append(out,
			member{"if", object{{"properties", object{{"kind", object{{"const", "category"}}}}}, {"required", []any{"kind"}}}},
			member{"then", object{{"properties", object{{"category", object{{"minimum", json.Number("1")}}}}}, {"required", []any{"category"}}}})
	}
	return out
}

func leafSchema[R any](t *testing.T, f *diagram.Field[R]) object {
	if f.Help == "" {
		t.Errorf("nothing is said of %s", f.Key)
	}
	out := object{{"description", description(f)}}
	switch {
	case f.Sort == diagram.SortText:
		return append(out, member{"$ref", "#/$defs/text"})
	case f.Sort == diagram.SortImage:
		return append(out, member{"type", "string"}, member{"contentEncoding", "base64"}, member{"maxLength", json.Number(strconv.Itoa(base64.StdEncoding.EncodedLen(diagram.MostImage)))})
	case f.Sort == diagram.SortDate:
		return append(out, member{"type", "string"}, member{"pattern", "^([0-9]{4}-[0-9]{2}-[0-9]{2})?$"})
	case len(f.Words) > 0:
		var words []any
		if !f.Needed {
			words = append(words, "")
		}
		for _, word := range f.Words {
			words = append(words, word)
		}
		return append(out, member{"enum", words})
	case f.Sort == diagram.SortID && f.Needed:
		return append(out, member{"$ref", "#/$defs/id"})
	case f.Sort == diagram.SortID:
		return append(out, member{"type", "string"}, member{"pattern", "^[A-Za-z0-9._-]{0,64}$"})
	case f.Presence:
		return append(out, member{"type", "boolean"}, member{"default", true})
	case f.Sort == diagram.SortFlag:
		return append(out, member{"type", "boolean"})
	case f.Sort == diagram.SortCount:
		return append(append(out, member{"type", "integer"}), limits(f.Range)...)
	}
	return append(append(out, member{"type", "number"}), limits(f.Range)...)
}

func limits(r diagram.Range) object {
	number := func(v float64) json.Number { return json.Number(strconv.FormatFloat(v, 'f', -1, 64)) }
	between := object{{"minimum", number(r.Low)}, {"maximum", number(r.High)}}
	if r.Zero >= diagram.ZeroWithin {
		return between
	}
	return object{{"oneOf", []any{object{{"const", number(0)}}, between}}}
}

// description says what a member is, in which unit, and what nothing stands for.
func description[R any](f *diagram.Field[R]) string {
	text := f.Help
	if f.Sort == diagram.SortNumber && !strings.Contains(text, f.Range.Name) {
		text += ", in " + f.Range.Name
	}
	if f.Empty != "" {
		nothing := map[bool]string{true: "0", false: "empty"}[f.Sort == diagram.SortNumber || f.Sort == diagram.SortCount]
		text += "; " + nothing + " is " + f.Empty
	}
	return strings.NewReplacer("“", `"`, "”", `"`).Replace(text) + "."
}

// printed writes an object with a line for each of its properties, and what has
// none on one line.
func printed(value any, depth int) string {
	o, ok := value.(object)
	if !ok || !slices.ContainsFunc(o, func(m member) bool { return m.name == "properties" || isContainer(m.value) && isSchema(m.value) }) && !isSchema(o) {
		return string(appendInline(nil, value, " "))
	}
	var lines []string
	indent := strings.Repeat("  ", depth+1)
	for _, m := range o {
		lines = append(lines, indent+string(appendText(nil, m.name))+": "+printed(m.value, depth+1))
	}
	return "{\n" + strings.Join(lines, ",\n") + "\n" + indent[2:] + "}"
}

// isSchema reports whether a value is the properties of an object.
func isSchema(value any) bool {
	o, _ := value.(object)
	return len(o) > 0 && !slices.ContainsFunc(o, func(m member) bool {
		inner, ok := m.value.(object)
		return !ok || len(inner) == 0 || inner[0].name != "description"
	})
}

// TestSchemasAreMadeFromTheFields compares the schemas that are published with what
// the fields say; with UPDATE they are written.
func TestSchemasAreMadeFromTheFields(t *testing.T) {
	id := func(of string) object {
		return object{{"id", object{{"description", "The id of the " + of + "."}, {"$ref", "#/$defs/id"}}}}
	}
	defs := func(list ...member) string {
		var out []string
		for _, m := range list {
			out = append(out, `    "`+m.name+`": `+printed(m.value.(object), 2))
		}
		return strings.Join(out, ",\n")
	}
	protector := schemaOf(t, "A surge protective device attached to a bus, in one plan.", diagram.ProtectorFields(), 0, id("protector"))
	for path, made := range map[string]map[string]string{
		"clampline.schema.json": {
			"INFO": printed(schemaOf(t, groupHelp["info"], diagram.InfoFields(), 0, nil), 2),
			"DEFS": defs(
				member{"plan", schemaOf(t, "One set of protectors on the same building.", diagram.PlanFields(), 0, id("plan"))},
				member{"part", schemaOf(t, "One thing placed on the sheet.", diagram.PartFields(), 0, id("part"))},
				member{"feeder", schemaOf(t, "A run of conductors from the part that feeds to the part that is fed.", diagram.FeederFields(), 0, id("feeder"))},
				member{"protector", protector},
				member{"surge", schemaOf(t, "A surge case: what arrives where.", diagram.SurgeFields(), 0, id("surge case"))},
				member{"aside", schemaOf(t, "A finding that a person has set aside in one plan: it is known again by its rule, record and detail.", diagram.AsideFields(), 0, id("record"))}),
		},
		"library.schema.json": {
			"DEFS": defs(member{"protector", schemaOf(t, "A kind of protector.", unplaced(diagram.ProtectorFields()), 0, id("kind"))}),
		},
	} {
		frame, err := os.ReadFile(filepath.Join("testdata", "schema", path))
		if err != nil {
			t.Fatal(err)
		}
		want := string(frame)
		for name, text := range made {
			want = strings.Replace(want, "@"+name+"@", text, 1)
		}
		at := filepath.Join("..", "..", "assets", path)
		got, err := os.ReadFile(at)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) == want {
			continue
		}
		if os.Getenv("UPDATE") == "" {
			t.Errorf("%s is not what the fields say; look at the difference and write it with UPDATE=1", path)
			continue
		}
		if err := os.WriteFile(at, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
