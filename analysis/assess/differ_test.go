package assess_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

// overSupply is what category B of IEEE C62.41.2-2002 (from memory) brings.
var overSupply = []diagram.Surge{
	{Name: "All lines", Path: diagram.LinesToEarth, Wave: diagram.CombinationWave, Voltage: 6e3, Current: 3e3},
	{Name: "Line to neutral", Path: diagram.LineToNeutral, Wave: diagram.CombinationWave, Voltage: 6e3, Current: 3e3},
	{Name: "Ring", Path: diagram.LinesToEarth, Wave: diagram.RingWave, Voltage: 6e3, Current: 500},
}

// stroke is one so near that it is more than what protects stands.
var stroke = diagram.Surge{Name: "Near stroke", Path: diagram.LineToNeutral, Wave: diagram.CombinationWave, Voltage: 40e3, Current: 20e3}

// Wherever the two bases judge otherwise the working says so and why, with figures
// of the result; where they judge alike it says nothing.
func TestWhyTheBasesDiffer(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	reasons := map[string]int{"lets less through": 0, "are solved and": 0, "takes ": 0, "thrown back": 0, "no protector takes part": 0, "is born at": 0, "the surge destroys": 0}
	for _, doc := range filetest.Demos(t) {
		for _, surges := range [][]diagram.Surge{overSupply, assess.FewSurges(doc), {inside(diagram.EveryBus)}, {stroke}} {
			result, err := new(assess.Engine).Transient(context.Background(), doc, diagram.FirstPlan, surges...)
			if err != nil {
				t.Fatal(err)
			}
			for id := range result.Buses {
				explained, _ := assess.Explain(doc, result, id)
				hand := handrule.Explain(doc, result.Plan, result.Topology, handrule.DefaultRule(), id)[id]
				for i, level := range explained.Levels {
					text := differing(level.Working)
					if i == 0 && otherDecides(hand, level, text) {
						continue
					}
					for part := range reasons {
						if strings.Contains(text, part) {
							reasons[part]++
						}
					}
					if err := tellsApart(levelIn(hand, level.Mode), level, text); err != nil {
						t.Errorf("%s, %s: %v", doc.NameOf(id), level.Mode, err)
					}
				}
			}
		}
	}
	for part, n := range reasons {
		if n == 0 {
			t.Errorf("no reason has %q in it: the demos show nothing of it", part)
		}
	}
}

// A building of 300 parts, by both bases: whatever they judge otherwise is explained.
func TestWhyTheBasesDifferInALargeBuilding(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	doc, err := file.Load("../../testdata/buildings/tern-quay-wings.clampline")
	if err != nil {
		t.Fatal(err)
	}
	few := assess.FewSurges(doc) // over the supply on all lines, and inside
	result, err := new(assess.Engine).Transient(context.Background(), doc, diagram.FirstPlan, few[0], few[3], few[4])
	if err != nil {
		t.Fatal(err)
	}
	if parts, _, _ := doc.Count(); parts != 300 || len(result.Buses) != 287 {
		t.Errorf("it has %d parts, %d of them judged", parts, len(result.Buses))
	}
	hand := handrule.Explain(doc, result.Plan, result.Topology, handrule.DefaultRule(), slices.Collect(maps.Keys(result.Buses))...)
	differ := 0
	for id, explained := range assess.ExplainAll(doc, result) {
		for i, level := range explained.Levels {
			text := differing(level.Working)
			if text != "" {
				differ++
			}
			if i == 0 && level.Verdict != hand[id].Worst().Verdict && text == "" {
				t.Errorf("%s: %s by the hand rule, %s by the transient, and nothing says why", doc.NameOf(id), hand[id].Worst().Verdict, level.Verdict)
			}
			if i == 0 && otherDecides(hand[id], level, text) {
				continue
			}
			if err := tellsApart(levelIn(hand[id], level.Mode), level, text); err != nil {
				t.Errorf("%s, %s: %v", doc.NameOf(id), level.Mode, err)
			}
		}
	}
	if differ < 200 {
		t.Errorf("they differ in %d modes: the building shows too little", differ)
	}
}

// differing returns what a working says of why the bases differ.
func differing(w analysis.Working) string {
	for _, step := range w {
		if step.Label == "why they differ" {
			return step.Text
		}
	}
	return ""
}

func levelIn(bus analysis.BusResult, mode diagram.Mode) analysis.Level {
	for _, level := range bus.Levels {
		if level.Mode == mode {
			return level
		}
	}
	return analysis.Level{Verdict: analysis.Unknown}
}

// otherDecides reports whether the mode that decides is judged alike, and the text is of
// the one that decides by the hand rule, in which the bases differ.
func otherDecides(hand analysis.BusResult, worst analysis.Level, text string) bool {
	return levelIn(hand, worst.Mode).Verdict == worst.Verdict && hand.Worst().Verdict != worst.Verdict &&
		strings.HasPrefix(text, fmt.Sprintf("of %s the hand rule says %s", hand.Worst().Mode, hand.Worst().Verdict))
}

func tellsApart(hand, solved analysis.Level, text string) error {
	alike := hand.Verdict == solved.Verdict || hand.Verdict == analysis.Unknown || solved.Verdict == analysis.Unknown || !solved.Known
	want := fmt.Sprintf("of %s the hand rule says %s, the transient says %s, because ", solved.Mode, hand.Verdict, solved.Verdict)
	switch {
	case alike && text != "":
		return fmt.Errorf("both say %s, and it says %q", solved.Verdict, text)
	case !alike && (!strings.HasPrefix(text, want) || len(text) < len(want)+20):
		return fmt.Errorf("got %q, want %q and a reason", text, want)
	}
	return nil
}

// A board behind a transformer that no protector covers is held by the transformer,
// and the figures are those of the results on both sides.
func TestTransformerIsTheReason(t *testing.T) {
	doc := filetest.Demos(t)[0]
	result, err := new(assess.Engine).Transient(context.Background(), doc, diagram.FirstPlan, analysis.SurgesOf(doc)[:3]...)
	if err != nil {
		t.Fatal(err)
	}
	for id := range result.Buses {
		if doc.NameOf(id) != "Lab panel LP-1" {
			continue
		}
		explained, _ := assess.Explain(doc, result, id)
		level := levelIn(explained, diagram.LineEarth)
		text := differing(level.Working)
		here := fmt.Sprintf("%.3g\u00a0V here", level.Volts)
		if !strings.Contains(text, "T1 lets less through than arrives: ") || !strings.Contains(text, " at Main switchboard before it, ") || !strings.HasSuffix(text, here) {
			t.Errorf("got %q, want the transformer and %q", text, here)
		}
		return
	}
	t.Fatal("the demo has no Lab panel LP-1")
}
