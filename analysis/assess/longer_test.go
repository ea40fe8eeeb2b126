package assess_test

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/circuit"
	"clampline/analysis/transient"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// A case whose voltage is highest late goes on for the time of its wave once
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

// What was not solved on would have changed no verdict: solved for twice as long, no
// voltage of a board or load that rises comes near to what that stands.
func TestWhatIsNotSolvedOnIsFarFromAVerdict(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	doc := filetest.Demos(t)[0]
	result, cases, err := new(assess.Engine).Cases(context.Background(), doc, diagram.FirstPlan, assess.FewSurges(doc)...)
	if err != nil {
		t.Fatal(err)
	}
	ended, risen := 0, 0
	for _, c := range cases {
		if c.Circuit.Duration == c.Circuit.Longest {
			continue
		}
		ended++
		solver, err := transient.New(context.Background(), c.Circuit.Network, transient.Options{Step: c.Circuit.Step, Duration: c.Circuit.Longest})
		if err != nil {
			t.Fatal(err)
		}
		whole := diagramtest.Must(solver.Run(context.Background()))
		for bus, place := range c.Circuit.Places {
			if !place.Judged {
				continue
			}
			for i, pair := range circuit.Pairs(len(c.Circuit.Network.Buses[bus].Conductors)) {
				volts, mode := whole.Buses[bus][i].Volts, diagram.Mode(c.Circuit.Network.Buses[bus].Kind(pair))
				was, _ := c.Worst(place.Record, mode)
				if volts <= 1.01*was.Volts {
					continue
				}
				risen++
				for _, level := range result.Buses[place.Record].Levels {
					if level.Mode == mode && level.Withstand > 0 && volts > 0.4*level.Withstand {
						t.Errorf("%s, %s: %g V at %.3g µs after %g V at %.3g of %.3g µs, of %g V", doc.NameOf(place.Record), mode, volts, whole.Buses[bus][i].At*1e6, was.Volts, was.At*1e6, c.Circuit.Duration*1e6, level.Withstand)
					}
				}
			}
		}
	}
	if ended == 0 || risen == 0 {
		t.Errorf("%d cases ended at once and %d voltages rise later: the demo shows nothing", ended, risen)
	}
}
