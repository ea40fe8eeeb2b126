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
		explained, ok := Explain(doc, result, id)
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
	result, err := Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []diagram.ID{"part-99", "part-1"} { // part-1 is the supply, which gets no verdict
		if _, ok := Explain(doc, result, id); ok {
			t.Errorf("%s was explained", id)
		}
	}
}
