package diagramtest_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// walk visits every field of a value that holds no other, with its path. The
// items of an array share one path.
func walk(path string, v reflect.Value, visit func(path string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			walk(path+"."+v.Type().Field(i).Name, v.Field(i), visit)
		}
	case reflect.Array:
		for i := range v.Len() {
			walk(path, v.Index(i), visit)
		}
	default:
		visit(path, v)
	}
}

// A field that no random document sets is a field that no test of writing,
// undoing or comparing looks at.
func TestRandomDocumentsSetEveryField(t *testing.T) {
	all, set := map[string]bool{}, map[string]bool{}
	note := func(record any) {
		v := reflect.ValueOf(record)
		walk(v.Type().Name(), v, func(path string, v reflect.Value) {
			all[path] = true
			if !v.IsZero() {
				set[path] = true
			}
		})
	}
	for seed := range uint64(60) {
		noteAll(diagramtest.Random(diagramtest.Rand(seed), 20), note)
	}
	var missing []string
	for path := range all {
		if !set[path] && !strings.HasSuffix(path, ".Extra") {
			missing = append(missing, path)
		}
	}
	slices.Sort(missing)
	for _, path := range missing {
		t.Errorf("no document sets %s", path)
	}
}

func noteAll(doc *diagram.Document, note func(any)) {
	note(doc.Info())
	for _, p := range doc.Plans() {
		note(p)
	}
	for p := range doc.Parts() {
		note(p)
	}
	for f := range doc.Feeders() {
		note(f)
	}
	for p := range doc.Protectors() {
		note(p)
	}
	for _, s := range doc.Surges() {
		note(s)
	}
}
