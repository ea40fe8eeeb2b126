package assess

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
)

// The main demo shows every reason and every verdict in its first plan, so
// that a newcomer meets each once.
func TestMainDemoShowsEveryReason(t *testing.T) {
	doc := filetest.Demos(t)[0]
	result, err := Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	shown, verdicts := map[analysis.Reason]bool{}, map[analysis.Verdict]bool{}
	for _, bus := range result.Buses {
		verdicts[bus.Worst().Verdict] = true
		for _, level := range bus.Levels {
			shown[level.Reason] = true
		}
	}
	for _, reason := range reasons() {
		if !shown[reason] {
			t.Errorf("no bus shows the reason %q", reason)
		}
	}
	for _, verdict := range analysis.Verdicts() {
		if !verdicts[verdict] {
			t.Errorf("no bus is %s", verdict)
		}
	}
}

// A second plan of each demo is better than the first: fewer buses exceed
// their withstand or are unreached.
func TestDemoPlansImprove(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		var bad []int
		for _, plan := range doc.Plans() {
			result, err := Run(context.Background(), doc, plan.ID)
			if err != nil {
				t.Fatal(err)
			}
			counts := result.Count()
			bad = append(bad, counts[analysis.Exceeded]+counts[analysis.Unreached])
		}
		if len(bad) < 2 || bad[1] >= bad[0] {
			t.Errorf("%s: got %v buses exceeded or unreached by plan, want fewer in the second", doc.Info().Title, bad)
		}
	}
}

// reasons are those of the hand rule.
func reasons() []analysis.Reason {
	return []analysis.Reason{
		analysis.AtProtector, analysis.LongLeads, analysis.JustBelow, analysis.NearProtector, analysis.Distance, analysis.Bonded, analysis.NearBond, analysis.NoProtector, analysis.PastTransformer,
		analysis.PastSwitch, analysis.Downstream, analysis.WrongVoltage, analysis.WrongEarthing, analysis.WrongPhases, analysis.MissingMode, analysis.NoWithstand, analysis.NoSystem, analysis.NoRating,
	}
}
