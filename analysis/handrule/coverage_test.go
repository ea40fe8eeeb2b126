package handrule_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
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

// NFPA 70-2023, 230.67(B), exception: the service equipment may lack a protector
// where each board next downstream has one.
func TestNextBoardsStandIn(t *testing.T) {
	service := func(length float64) *sheet {
		return newSheet(t).supply("u", wye480).part(diagram.Part{ID: "s", Kind: diagram.Panel, Withstand: category(3), Board: diagram.BoardData{Service: true}}).
			boards("a", "b").feed(3, "u > s").feed(length, "s > a", "s > b")
	}
	weak := levels{3900, 3900, 3900, 3900}
	for _, test := range []struct {
		name  string
		sheet *sheet
		want  analysis.Severity
	}{
		{"each has one", service(30).protect("p", "a", wye480, full).protect("q", "b", wye480, full), analysis.Warning},
		{"each has one, near, and weak", service(3).protect("p", "a", wye480, weak).protect("q", "b", wye480, weak), analysis.Warning},
		{"one has none", service(30).protect("p", "a", wye480, full), analysis.Error},
		{"there are none", newSheet(t).supply("u", wye480).boards("s").feed(3, "u > s"), analysis.Error},
	} {
		found := false
		for _, f := range test.sheet.part(diagram.Part{ID: "l", Kind: diagram.Load, Use: diagram.DwellingUnitUse, Withstand: category(2)}).feed(1, "s > l").solve().Findings {
			if f.Subject == analysis.SubjectCover && f.Records[0] == "s" {
				found = true
				if f.Severity != test.want {
					t.Errorf("%s: got %s, want %s: %s", test.name, f.Severity, test.want, f.Why)
				}
			}
		}
		if !found {
			t.Errorf("%s: there is no finding on the service board", test.name)
		}
	}
}

// That no protector reaches a board weighs by what hangs there and by whether the
// building needs protection: 850 / (1 × 0.5) = 1700 is above 1000.
func TestCoverSeverity(t *testing.T) {
	low := diagram.Exposure{Surroundings: diagram.Urban, FlashDensity: 0.5, LowCable: 1000, Occupancy: diagram.Dwelling}
	tests := []struct {
		name     string
		exposure diagram.Exposure
		critical bool
		want     analysis.Severity
	}{
		{"not assessed", diagram.Exposure{}, false, analysis.Error},
		{"not required", low, false, analysis.Remark},
		{"not required, critical", low, true, analysis.Warning},
	}
	for _, test := range tests {
		s := newSheet(t).part(diagram.Part{ID: "supply", Kind: diagram.Supply, System: tns400, Exposure: test.exposure}).boards("panel").
			part(diagram.Part{ID: "lamp", Kind: diagram.Load, Withstand: category(2), Load: diagram.LoadData{Critical: test.critical}}).feed(5, "supply > panel", "panel > lamp")
		found := 0
		for _, f := range s.solve().Findings {
			if f.Subject != analysis.SubjectCover {
				continue
			}
			found++
			if f.Severity != test.want || f.Critical != test.critical {
				t.Errorf("%s: got %s, critical %v, want %s: %s", test.name, f.Severity, f.Critical, test.want, f.What)
			}
		}
		if found != 2 {
			t.Errorf("%s: %d findings on cover, want one for the panel and one for the lamp", test.name, found)
		}
	}
}
