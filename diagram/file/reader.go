package file

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-json"

	"clampline/diagram"
)

// reader takes the members that it is told of out of an object, so that those
// nobody knows are left over.
type reader struct {
	object map[string]any          // what is left of the object being read
	trail  []string                // where it stands
	id     diagram.ID              // of the record being read, where it is a valid one
	homes  map[diagram.ID][]string // where the record of each id stands
	problems
}

var _ fields = (*reader)(nil)

func (r *reader) take(name string) (any, bool) {
	value, ok := r.object[name]
	delete(r.object, name)
	return value, ok
}

// report notes what is wrong with a member.
func (r *reader) report(name, what, remedy string) {
	trail := r.trail
	if name != "" {
		trail = append(trail, strings.Split(name, ".")...)
	}
	r.add(trail, r.id, what, remedy)
}

func (r *reader) mismatch(name string, got any, wanted, remedy string) {
	if got == nil {
		remedy = "remove the member: what is absent is empty or not known"
	}
	r.report(name, fmt.Sprintf("%s stands where %s belongs", describe(got), wanted), remedy)
}

// describe names a value as people see it in the text.
func describe(value any) string {
	switch v := value.(type) {
	case string:
		return fmt.Sprintf("the text %.40q", v)
	case json.Number:
		return fmt.Sprintf("the number %.40s", v)
	case map[string]any:
		return "an object"
	case []any:
		return "a list"
	case nil:
		return "null"
	}
	return fmt.Sprint(value)
}

// within visits the object that the value should be, and returns what is left
// of it.
func (r *reader) within(name string, value any, visit func()) map[string]any {
	object, ok := value.(map[string]any)
	if !ok {
		r.mismatch(name, value, "an object", "put its members between { and }")
		return nil
	}
	outside, depth := r.object, len(r.trail)
	r.object, r.trail = object, append(r.trail, strings.Split(name, ".")...)
	visit()
	r.object, r.trail = outside, r.trail[:depth]
	return object
}

func (r *reader) record(id *diagram.ID, extra *string, visit func()) {
	_, given := r.object["id"]
	r.text("id", "", func(to string) { *id = diagram.ID(to) })
	if id.Valid() {
		r.id = *id
	}
	switch first, taken := r.homes[*id]; {
	case !given:
		r.report("", "the id is missing", `give the record an "id" that no other record has`)
	case taken:
		r.report("id", fmt.Sprintf("two records bear the id %.64q: %s has it too", *id, pathOf(first)), "rename one of them")
	default:
		r.homes[*id] = slices.Clone(r.trail)
	}
	visit()
	*extra = encodeExtra(r.object)
	r.id = ""
}

func (r *reader) group(name string, visit func()) {
	value, ok := r.take(name)
	if !ok {
		return
	}
	if left := r.within(name, value, visit); len(left) > 0 {
		r.object[name] = left
	}
}

func (r *reader) text(name, _ string, set func(string)) {
	value, ok := r.take(name)
	if !ok {
		return
	}
	text, ok := value.(string)
	if !ok {
		r.mismatch(name, value, "a text", "put it in double quotes")
	}
	set(text)
}

func (r *reader) flag(name string, v *bool) {
	value, ok := r.take(name)
	if !ok {
		return
	}
	flag, ok := value.(bool)
	if !ok {
		r.mismatch(name, value, "true or false", "write true or false, without quotes")
	}
	*v = flag
}

// float returns the number under the name; a number that is too large for
// 64 bits, such as 1e999, is reported. What is asked for is put into words only
// where something else stands there.
func (r *reader) float(name string, asked func() (wanted, remedy string)) float64 {
	value, ok := r.take(name)
	if !ok {
		return 0
	}
	text, ok := value.(json.Number)
	if !ok {
		wanted, remedy := asked()
		r.mismatch(name, value, wanted, remedy)
		return 0
	}
	number, err := strconv.ParseFloat(string(text), 64)
	if err != nil {
		_, remedy := asked()
		r.report(name, fmt.Sprintf("%.40s is too large for a number", text), remedy)
		return 0
	}
	return number
}

func (r *reader) number(name, unit string, _ bool, v *float64) {
	*v = r.float(name, func() (wanted, remedy string) {
		return "a number in " + unit, "write a plain number in " + unit + ", without quotes and without a unit"
	})
	if *v == 0 {
		*v = 0 // not minus nought, which would not be written
	}
}

// maxWhole bounds whole numbers so that they fit an int of 32 bits.
const maxWhole = 1e9

func (r *reader) count(name string, v *int) {
	const remedy = "write a whole number, without quotes"
	number := r.float(name, func() (string, string) { return "a whole number", remedy })
	if number != math.Trunc(number) || math.Abs(number) > maxWhole {
		r.report(name, fmt.Sprintf("%g stands where a whole number belongs", number), remedy)
		return
	}
	*v = int(number)
}

func (r *reader) optional(name string, there *bool, visit func()) {
	r.group(name, func() {
		*there = true
		r.flag("connected", there)
		visit()
	})
}
