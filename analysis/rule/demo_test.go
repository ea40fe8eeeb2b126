package rule

import (
	"context"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

// In the last plan of each demo, which is the better one, nothing is wrong or
// doubtful with a protector.
func TestBetterPlansOfDemos(t *testing.T) {
	if len(assets.Demos()) == 0 {
		t.Fatal("there are no demos")
	}
	for _, demo := range assets.Demos() {
		doc, err := file.Read(strings.NewReader(demo.Text))
		if err != nil {
			t.Fatal(err)
		}
		plans := doc.Plans()
		if got := withProtectors(doc, plans[len(plans)-1].ID); len(got) > 0 {
			t.Errorf("%s: got %s; want nothing", demo.Title, strings.Join(got, "; "))
		}
	}
}

// withProtectors returns what is wrong or doubtful with the protectors of a
// plan, by the rules on systems and nameplates.
func withProtectors(doc *diagram.Document, plan diagram.ID) []string {
	var out []string
	for _, f := range diagramtest.Must(Check(context.Background(), Input{Document: doc, Plan: plan, Topology: analysis.Trace(doc)})) {
		_, onProtector := doc.Protector(f.Records[0])
		switch f.Subject {
		case analysis.SubjectVoltage, analysis.SubjectPhases, analysis.SubjectEarthing, analysis.SubjectContinuous, analysis.SubjectNameplate:
			if onProtector && f.Severity > analysis.Remark {
				out = append(out, f.Severity.String()+", "+f.Subject+": "+f.What)
			}
		}
	}
	return out
}
