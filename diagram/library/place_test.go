package library_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/library"
)

func TestPlaceKeepsTheDeviceAndShortensTheName(t *testing.T) {
	tests := []struct{ name, given, note, wantName, wantNote string }{
		{"kind", "Type 2, 208Y/120 V, VPR 700 V", "Remarks.", "Type 2", "Type 2, 208Y/120 V, VPR 700 V\nRemarks."},
		{"kind without a note", "Type 2, VPR 700 V", "", "Type 2", "Type 2, VPR 700 V"},
		{"short name", "House SPD", "Remarks.", "House SPD", "Remarks."},
		{"no name", "", "Remarks.", "", "Remarks."},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			device := diagram.Protector{
				ID: "own-1", Name: test.given, Note: test.note, Type: diagram.Type2, In: 20e3, Price: 300, Hours: 2, Catalogue: "P-12",
				Breaker: diagram.BreakerData{Rated: 30, Poles: 3, Least: 30, Most: 60}, Extra: `{"colour":"red"}`,
				Leads: diagram.Leads{Phase: diagram.Lead{Length: 0.3}, Run: diagram.Twisted},
			}
			want := device
			want.ID, want.Plan, want.Bus, want.Name, want.Note = "protector-7", "plan-2", "panel-3", test.wantName, test.wantNote
			got := library.Place(library.Entry{Protector: device, Own: true}, "plan-2", "panel-3", "protector-7")
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestPlacedNamesFitATag(t *testing.T) {
	for _, e := range library.BuiltIn() {
		if got := library.Place(e, "plan-1", "panel-1", "a").Name; len(got) == 0 || len(got) > 32 {
			t.Errorf("%s: got name %q", e.Protector.ID, got)
		}
	}
}
