package assess

import (
	"context"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

func TestExplainAgreesWithRun(t *testing.T) {
	doc := diagramtest.Building(40)
	result, err := Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	for id, bus := range result.Buses {
		explained, ok := Explain(doc, diagram.FirstPlan, id)
		if !ok || len(explained.Levels) != len(bus.Levels) {
			t.Fatalf("%s: explained %v with %d levels, want %d", id, ok, len(explained.Levels), len(bus.Levels))
		}
		for i, level := range bus.Levels {
			if explained.Levels[i].Volts != level.Volts || explained.Levels[i].Mode != level.Mode {
				t.Errorf("%s: explained %+v, want %+v", id, explained.Levels[i], level)
			}
		}
	}
}

func TestExplainOfWhatIsNotThere(t *testing.T) {
	doc := diagramtest.Building(10)
	if _, ok := Explain(doc, "plan-9", "part-2"); ok {
		t.Error("a plan that is not there was explained")
	}
	if _, ok := Explain(doc, diagram.FirstPlan, "part-99"); ok {
		t.Error("a bus that is not there was explained")
	}
}
