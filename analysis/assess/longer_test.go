package assess_test

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/transient"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
)

// A case whose voltage still rises at the end goes on for the time of its wave once
// more. What is found is to the bit what the whole time has in one go.
func TestCasesThatStillRiseGoOn(t *testing.T) {
	doc, longer := filetest.Demos(t)[0], 0
	surge := analysis.SurgesOf(doc)[2]
	surge.Places = diagram.EveryLoad
	_, cases, err := new(assess.Engine).Cases(context.Background(), doc, doc.Plans()[1].ID, surge)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases[0].At {
		if c.Circuit.Duration < c.Circuit.Longest {
			continue
		}
		longer++
		if c.Duration != c.Circuit.Longest {
			t.Errorf("at %s: told a duration of %g s, solved to %g s", c.Surge.Part, c.Duration, c.Circuit.Longest)
		}
		solver, err := transient.New(context.Background(), c.Circuit.Network, transient.Options{Step: c.Circuit.Step, Duration: c.Circuit.Longest, Samples: 7})
		if err != nil {
			t.Fatal(err)
		}
		whole, err := solver.Run(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(whole, c.Solved, cmpopts.IgnoreUnexported(transient.Duty{})); diff != "" {
			t.Errorf("at %s: -in one go +gone on\n%s", c.Surge.Part, diff)
		}
	}
	if longer == 0 || longer == len(cases[0].At) {
		t.Errorf("%d of %d places go on: that shows nothing", longer, len(cases[0].At))
	}
}
