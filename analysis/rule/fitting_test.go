package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// What is tried on a board stands in for none of the service above: the emergency
// board, which comes first, asks for one of its own.
func TestTrialsLeaveNothingBehind(t *testing.T) {
	s := newSketch(t).later().supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("attic", "main").
		use("attic", diagram.EmergencyUse).feed(6, "supply > main").feed(20, "main > attic")
	want := []string{"error attic: NFPA 70:2023 section 700.8", "error main: NFPA 70:2023 section 230.67"}
	if diff := cmp.Diff(want, brief(s.about(analysis.SubjectRequired))); diff != "" {
		t.Errorf("want -, got +:\n%s", diff)
	}
}
