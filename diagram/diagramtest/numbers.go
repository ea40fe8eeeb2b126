package diagramtest

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"

	"clampline/diagram"
)

// Extremes returns the values that a number is set to in turn by those tests
// that look for what breaks.
func Extremes() []float64 {
	out := []float64{0, math.Copysign(0, -1), math.NaN(), math.Inf(1), math.Inf(-1), 1}
	for _, v := range []float64{math.SmallestNonzeroFloat64, 1e-307, 1e-12, 1e12, 1e307, math.MaxFloat64} {
		out = append(out, v, -v)
	}
	return append(out, 1e-3)
}

// Number is one number of a document.
type Number struct {
	ID   diagram.ID // of its record; empty of the sheet as a whole
	Path string     // of its field within the record: "Modes.0.MCOV"
}

// Numbers lists the numbers that a document holds, whole ones left out.
func Numbers(doc *diagram.Document) []Number {
	var out []Number
	for _, id := range recordIDs(doc) {
		walkFields(reflect.ValueOf(recordOf(doc, id)), "", func(path string, _ reflect.Value) { out = append(out, Number{id, path}) })
	}
	return out
}

// Set returns a copy of the document in which the number has another value, or
// the reason why the document does not take it.
func (n Number) Set(doc *diagram.Document, to float64) (*diagram.Document, error) {
	record := reflect.New(reflect.TypeOf(recordOf(doc, n.ID))).Elem()
	record.Set(reflect.ValueOf(recordOf(doc, n.ID)))
	walkFields(record, "", func(path string, v reflect.Value) {
		if path == n.Path {
			v.SetFloat(to)
		}
	})
	out := doc.Snapshot()
	_, err := out.Edit(func(tx *diagram.Tx) error {
		Put(tx, record.Interface())
		return nil
	})
	return out, err
}

func recordIDs(doc *diagram.Document) []diagram.ID {
	out := []diagram.ID{""}
	for p := range doc.Parts() {
		out = append(out, p.ID)
	}
	for f := range doc.Feeders() {
		out = append(out, f.ID)
	}
	for p := range doc.Protectors() {
		out = append(out, p.ID)
	}
	for _, s := range doc.Surges() {
		out = append(out, s.ID)
	}
	return out
}

func recordOf(doc *diagram.Document, id diagram.ID) any {
	if p, ok := doc.Part(id); ok {
		return p
	}
	if f, ok := doc.Feeder(id); ok {
		return f
	}
	if p, ok := doc.Protector(id); ok {
		return p
	}
	if s, ok := doc.Surge(id); ok {
		return s
	}
	return doc.Info()
}

// Put sets a record of any sort.
func Put(tx *diagram.Tx, record any) {
	switch r := record.(type) {
	case diagram.Part:
		tx.SetPart(r)
	case diagram.Feeder:
		tx.SetFeeder(r)
	case diagram.Protector:
		tx.SetProtector(r)
	case diagram.Surge:
		tx.SetSurge(r)
	case diagram.Plan:
		tx.SetPlan(r)
	case diagram.Aside:
		tx.SetAside(r)
	case diagram.Info:
		tx.SetInfo(r)
	}
}

// walkFields visits every number of a record.
func walkFields(v reflect.Value, path string, visit func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			walkFields(v.Field(i), path+"."+v.Type().Field(i).Name, visit)
		}
	case reflect.Array:
		for i := range v.Len() {
			walkFields(v.Index(i), fmt.Sprintf("%s.%d", path, i), visit)
		}
	case reflect.Float64:
		visit(path, v)
	}
}

// Absurd returns where a result holds a number that is none, without end, or
// beyond what any figure of a building can be, and the number; or nothing. It
// follows pointers, maps and lists.
func Absurd(result any) string {
	s := search{seen: map[uintptr]bool{}}
	s.walk(reflect.ValueOf(result), "")
	return s.found
}

var absurdWords = regexp.MustCompile(`NaN|[+-]Inf|e[+-][0-9]{3}`)

// AbsurdText returns the words of a text that stand for such a number, with a
// few before and after, or nothing.
func AbsurdText(text string) string {
	at := absurdWords.FindStringIndex(text)
	if at == nil {
		return ""
	}
	return text[max(0, at[0]-80):min(len(text), at[1]+40)]
}

type search struct {
	seen  map[uintptr]bool
	found string
}

// isAbsurd reports whether a number is none, or outside of 1e-100 to 1e100.
func isAbsurd(v float64) bool {
	size := math.Abs(v)
	return v != v || size > 1e100 || size != 0 && size < 1e-100
}

func (s *search) walk(v reflect.Value, path string) {
	if s.found != "" {
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		s.look(path, v.Float(), v.Float())
	case reflect.Complex128:
		s.look(path, v.Complex(), real(v.Complex()), imag(v.Complex()))
	case reflect.Pointer:
		if !v.IsNil() && !s.seen[v.Pointer()] {
			s.seen[v.Pointer()] = true
			s.walk(v.Elem(), path)
		}
	case reflect.Interface:
		s.walk(v.Elem(), path)
	default:
		s.walkInto(v, path)
	}
}

// look notes a number of which a part is absurd.
func (s *search) look(path string, number any, parts ...float64) {
	if slices.ContainsFunc(parts, isAbsurd) {
		s.found = fmt.Sprintf("%s: %g", path, number)
	}
}

// walkInto walks through what holds several values.
func (s *search) walkInto(v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			s.walk(v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			s.walk(v.Index(i), path)
		}
	case reflect.Map:
		for _, key := range sortedKeys(v) {
			s.walk(v.MapIndex(key), path+"["+fmt.Sprint(key)+"]")
		}
	}
}

func sortedKeys(v reflect.Value) []reflect.Value {
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int {
		return strings.Compare(fmt.Sprint(a), fmt.Sprint(b))
	})
	return keys
}
