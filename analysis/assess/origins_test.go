package assess_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// inside is a surge that loads make themselves: the ring wave of category B1 of IEEE
// C62.41-1991 (from memory).
func inside(places diagram.Places) diagram.Surge {
	return diagram.Surge{ID: "surge-1", Name: "Inside", Places: places, Path: diagram.LineToNeutral, Wave: diagram.RingWave, Voltage: 2000, Current: 170}
}

// A surge at many places is the worst of one at each of them, and says which.
func TestManyPlacesAreTheWorstOfEach(t *testing.T) {
	for _, doc := range filetest.Demos(t)[1:] {
		engine := new(assess.Engine)
		all, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, inside(diagram.EveryBus))
		if err != nil {
			t.Fatal(err)
		}
		worst, from := map[diagram.ID]map[diagram.Mode]float64{}, map[diagram.ID]map[diagram.Mode]diagram.ID{}
		for id := range all.Buses {
			alone := inside("")
			alone.Part = id
			one, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, alone)
			if err != nil {
				t.Fatal(err)
			}
			for bus, peaks := range one.Surges[0].Buses {
				for _, peak := range peaks {
					if worst[bus] == nil {
						worst[bus], from[bus] = map[diagram.Mode]float64{}, map[diagram.Mode]diagram.ID{}
					}
					if peak.Volts > worst[bus][peak.Mode] {
						worst[bus][peak.Mode], from[bus][peak.Mode] = peak.Volts, id
					}
				}
			}
		}
		for id, bus := range all.Buses {
			for _, level := range bus.Levels {
				if level.Volts != worst[id][level.Mode] || level.Origin != from[id][level.Mode] {
					t.Errorf("%s, %s: got %g V from %s, want %g V from %s", doc.NameOf(id), level.Mode, level.Volts, level.Origin, worst[id][level.Mode], from[id][level.Mode])
				}
			}
			if why := bus.Worst().Why; !strings.Contains(why, ", from "+doc.NameOf(bus.Worst().Origin)) {
				t.Errorf("%s: %q does not say from where", doc.NameOf(id), why)
			}
		}
	}
}

// Where a part is named, a surge arrives at those of its transformer zone alone; one
// that finds no place is told of.
func TestPlacesOfAZone(t *testing.T) {
	doc := filetest.Demos(t)[0]
	topology := analysis.Trace(doc)
	s := inside(diagram.EveryBoard)
	everywhere := analysis.Origins(doc, topology, s)
	for _, row := range everywhere {
		if part, _ := doc.Part(row.Part); !part.Kind.IsBoard() || row.Places != "" {
			t.Errorf("it arrives at %s, a %s", row.Part, part.Kind)
		}
	}
	s.Part = everywhere[0].Part
	first, _ := doc.Part(s.Part)
	zone := topology.Node(first).Zone
	var want []diagram.ID
	for _, row := range everywhere {
		if part, _ := doc.Part(row.Part); topology.Node(part).Zone == zone {
			want = append(want, row.Part)
		}
	}
	var got []diagram.ID
	for _, row := range analysis.Origins(doc, topology, s) {
		got = append(got, row.Part)
	}
	if !slices.Equal(got, want) || len(got) == len(everywhere) || len(got) < 2 {
		t.Errorf("in the zone of %s it arrives at %v, want %v of %d", first.Name, got, want, len(everywhere))
	}
	bare := diagram.New()
	diagramtest.Edit(t, bare, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: diagram.Presets()[0].System})
		tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel})
		tx.SetFeeder(diagram.Feeder{ID: "feeder", From: diagram.End{Part: "supply"}, To: diagram.End{Part: "panel"}, Length: 10})
	})
	result, err := new(assess.Engine).Transient(context.Background(), bare, diagram.FirstPlan, inside(diagram.EveryLoad))
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(result.Findings, func(f analysis.Finding) bool { return f.Rule == "surge.nowhere" }) {
		t.Errorf("a surge at every load of a sheet without loads: got %v", result.Findings)
	}
}

// What the working says of another step is what that step gives at most: as much where
// nothing limits a higher one, less where a protector does, and of a lower one no more. The generators of the steps differ by
// 4 % in their impedance, so by as much may the voltage.
func TestOtherStepsGiveAtMostInProportion(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	doc := filetest.Demos(t)[0]
	bare := doc.Snapshot()
	diagramtest.Edit(t, bare, func(tx *diagram.Tx) {
		for p := range doc.Protectors() {
			tx.Remove(p.ID)
		}
	})
	alike, less := 0, 0
	for _, doc := range []*diagram.Document{doc, bare} {
		for _, ratio := range stepRatios(t, doc) {
			switch {
			case ratio > 1.04:
				t.Errorf("another step gives %.3g times what it can at most", ratio)
			case ratio > 0.96:
				alike++
			default:
				less++
			}
		}
	}
	if alike == 0 || less == 0 {
		t.Errorf("%d in proportion and %d below: the demo shows too little", alike, less)
	}
	if got := analysis.OtherSteps(doc, diagram.Surge{ID: "surge-1", Places: diagram.EveryBus}); len(got) > 0 {
		t.Errorf("a case of the sheet's own has other steps: %+v", got)
	}
}

// stepRatios returns what another step gives as a share of what the working says that it
// gives at most, where surges from inside arrive.
func stepRatios(t *testing.T, doc *diagram.Document) []float64 {
	t.Helper()
	engine := new(assess.Engine)
	var out []float64
	usual := map[string]diagram.Surge{}
	for _, s := range analysis.UsualSurges(doc) {
		usual[s.Name] = s
	}
	for _, s := range assess.FewSurges(doc) {
		for _, other := range analysis.OtherSteps(doc, usual[s.Name]) {
			other.Part, other.Places, other.Category, other.Switching = s.Part, "", "", ""
			result, err := engine.Transient(context.Background(), doc, doc.Plans()[1].ID, s, other)
			if err != nil {
				t.Fatal(err)
			}
			now, _ := result.Surges[0].Worst(s.Part, diagram.LineNeutral)
			then, _ := result.Surges[1].Worst(s.Part, diagram.LineNeutral)
			out = append(out, then.Volts/now.Volts/max(1, other.Voltage/s.Voltage))
		}
	}
	return out
}
