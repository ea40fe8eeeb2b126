package analysis

import (
	"slices"
	"testing"
)

// What burns stands before what protects nothing, and of either what concerns
// critical equipment first.
func TestOrderOfFindings(t *testing.T) {
	want := []Finding{
		{Severity: Error, Subject: SubjectSupply, What: "dead"},
		{Severity: Error, Subject: SubjectEarthing, What: "burns"},
		{Severity: Error, Subject: SubjectCover, What: "critical", Critical: true},
		{Severity: Error, Subject: SubjectCover, What: "another"},
		{Severity: Warning, Subject: SubjectSupply, What: "doubtful"},
		{Severity: Remark, Subject: SubjectLeads, What: "long"},
	}
	got := slices.Clone(want)
	slices.Reverse(got)
	SortFindings(got)
	for i := range want {
		if got[i].What != want[i].What {
			t.Errorf("%d: got %q, want %q", i, got[i].What, want[i].What)
		}
	}
}

// Every subject is listed once.
func TestSubjects(t *testing.T) {
	seen := map[string]bool{}
	for _, subject := range Subjects() {
		if subject == "" || seen[subject] {
			t.Errorf("%q is empty or doubled", subject)
		}
		seen[subject] = true
	}
}
