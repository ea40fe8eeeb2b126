package main

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestMutationsIn(t *testing.T) {
	const text = "package p\n\nfunc f(a, b int) bool {\n\tif a < b {\n\t\tg()\n\t}\n\ta += 2\n\treturn !h && true\n}\n"
	found, err := mutationsIn("p.go", text)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, m := range found {
		got = append(got, m.String())
		if m.applied(text) == text {
			t.Errorf("%s changes nothing", m)
		}
	}
	want := []string{
		"p.go:4: a < b → false && (a < b)", "p.go:4: < → <=", "p.go:5: g() → ", "p.go:7: += → -=", "p.go:7: 2 → (2 + 1)", "p.go:8: && → ||", "p.go:8: ! → ", "p.go:8: true → false",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// What says nothing of what a program does is left alone.
func TestMutationsWithoutMeaning(t *testing.T) {
	const text = "package p\n\nfunc (k kind) String() string {\n\tif k == 1 {\n\t\treturn \"one\"\n\t}\n\treturn \"\"\n}\n\nvar a, b, c = make([]int, 0, 2*n), make(map[int]int, 1+n), make([]int, n+m)\n\nvar d = strconv.FormatFloat(v, 102, 2, 64)\n"
	found, err := mutationsIn("p.go", text)
	if err != nil || len(found) != 1 || found[0].String() != "p.go:10: + → -" {
		t.Errorf("got %v (%v), want the sum of the length alone", found, err)
	}
}

func TestIsMutated(t *testing.T) {
	tested := func(path string) listed { return listed{ImportPath: path, TestGoFiles: []string{"a_test.go"}} }
	for _, test := range []struct {
		p    listed
		only []string
		want bool
	}{
		{tested("clampline/analysis/rule"), nil, true},
		{tested("clampline/app"), nil, false},
		{listed{ImportPath: "clampline/analysis"}, nil, false},
		{tested("clampline/analysis/rule"), []string{"./diagram/file"}, false},
		{tested("clampline/app"), []string{"./app"}, true},
	} {
		if got := isMutated(test.p, test.only); got != test.want {
			t.Errorf("%s of %v: got %v", test.p.ImportPath, test.only, got)
		}
	}
}
