package handrule_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
)

// Every bus that is not Held is a finding with its remedy, unless a finding on
// its protector or its supply says so already.
func TestCoverFindings(t *testing.T) {
	one := func() *sheet { return newSheet(t).supply("u", wye480).boards("a").feed(3, "u > a") }
	tests := []struct {
		name  string
		sheet *sheet
		want  []string
	}{
		{"held", one().protect("p", "a", wye480, full), nil},
		{"unreached", one(), []string{"error: a: Unreached, no protector holds L-N"}},
		{"exceeded", one().protect("p", "a", wye480, levels{4500, 4500, 4500, 9000}),
			[]string{"error: a: Exceeded, 9 000 V L-L, 225 % of 4 000 V"}},
		{"tight", one().protect("p", "a", wye480, levels{3500, 3500, 3500, 3500}),
			[]string{"note: a: Tight, 3 500 V L-N, 88 % of 4 000 V"}},
		{"told by the protector", one().protect("p", "a", wye208, full), nil},
		{"told by the supply", newSheet(t).boards("a"), nil},
		{"farther down than the misfit", one().boards("b").feed(3, "a > b").protect("p", "a", wye208, full),
			[]string{"error: b: Unreached, no protector holds L-N"}},
	}
	for _, test := range tests {
		var got []string
		for _, f := range test.sheet.solve().Findings {
			if f.Subject != analysis.SubjectCover {
				continue
			}
			got = append(got, strings.ReplaceAll(fmt.Sprintf("%s: %s", f.Severity, f.What), "\u00a0", " "))
			if f.Remedy == "" || f.Why == "" || len(f.Records) != 1 {
				t.Errorf("%s: the finding is not whole: %+v", test.name, f)
			}
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s: -want +got:\n%s", test.name, diff)
		}
	}
}
