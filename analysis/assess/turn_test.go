package assess_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// told solves a sheet in turn and returns what was told meanwhile, and the result.
func told(t *testing.T, doc *diagram.Document, turn assess.Turn) (partial []*analysis.Result, whole *analysis.Result) {
	t.Helper()
	turn.SoFar = func(r *analysis.Result) { partial = append(partial, r) }
	whole, err := new(assess.Engine).InTurn(context.Background(), doc, diagram.FirstPlan, turn)
	if err != nil {
		t.Fatal(err)
	}
	return partial, whole
}

// The second demo is small and has surges from the supply, inside at boards and inside
// at loads.
func farm(t *testing.T) *diagram.Document { return filetest.Demos(t)[1] }

// volts is what a result says of the deciding mode of each board and load.
func volts(r *analysis.Result) map[diagram.ID]float64 {
	out := map[diagram.ID]float64{}
	for id, bus := range r.Buses {
		out[id] = bus.Worst().Volts
	}
	return out
}

// In whichever turn they are solved, all surges together say the same; until then less
// and less is due, and no voltage falls.
func TestTurnsEndInTheSame(t *testing.T) {
	doc := farm(t)
	first, whole := told(t, doc, assess.Turn{})
	plain, err := new(assess.Engine).Transient(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	again, second := told(t, doc, assess.Turn{Before: whole, First: []diagram.ID{"load-1"}})
	for name, got := range map[string]*analysis.Result{"in turn": whole, "the second time": second} {
		if diff := cmp.Diff(volts(plain), volts(got)); diff != "" || got.Due != 0 || len(got.Stale) > 0 {
			t.Errorf("%s: due %d, stale %v\n%s", name, got.Due, got.Stale, diff)
		}
	}
	for _, run := range [][]*analysis.Result{first, again} {
		if len(run) == 0 {
			t.Fatal("nothing was told")
		}
		due := run[0].Of
		for _, r := range append(run, second) {
			if r.Due >= due {
				t.Errorf("%d are due after %d were", r.Due, due)
			}
			due = r.Due
			for id, bus := range r.Buses {
				if now, end := bus.Worst(), second.Buses[id].Worst(); now.Mode == end.Mode && now.Volts > end.Volts {
					t.Errorf("%s: %g V, and at the end %g V", id, now.Volts, end.Volts)
				}
			}
		}
	}
	for _, bus := range first[0].Buses { // nothing is known from before
		if v := bus.Worst().Verdict; v == analysis.Held || v == analysis.Tight {
			t.Errorf("%s is %s before all are solved", bus.ID, v)
		}
	}
	if names := casesOf(first[0]); !slices.Equal(names, []string{"Supply, all lines", "Supply, line to neutral", "Supply, ring wave"}) {
		t.Errorf("the first time %q are told first, want those of the supply", names)
	}
}

func casesOf(r *analysis.Result) []string {
	var out []string
	for _, s := range r.Surges {
		out = append(out, s.Surge.Name)
	}
	return out
}

// What is looked at is solved anew at once. What decides elsewhere and is still to come
// leaves the level of before, and says so; it is never what some other surge gives.
func TestWhatIsLookedAtComesFirst(t *testing.T) {
	doc := farm(t)
	_, before := told(t, doc, assess.Turn{})
	inside := func(id diagram.ID) bool { return before.Buses[id].Worst().Origin != "" }
	var looked diagram.ID
	for id := range before.Buses {
		if inside(id) && (looked == "" || id < looked) {
			looked = id
		}
	}
	if looked == "" {
		strengthen(t, doc) // from the supply
		_, before = told(t, doc, assess.Turn{})
		for id := range before.Buses {
			if inside(id) && (looked == "" || id < looked) {
				looked = id
			}
		}
	}
	if looked == "" {
		t.Fatal("no surge from inside decides anywhere")
	}
	partial, _ := told(t, doc, assess.Turn{Before: before, First: []diagram.ID{looked}})
	first := partial[0]
	if first.Stale[looked] || first.Buses[looked].Worst().Volts != before.Buses[looked].Worst().Volts {
		t.Errorf("%s: stale %t, %+v", looked, first.Stale[looked], first.Buses[looked].Worst())
	}
	stale := 0
	for id := range first.Buses {
		if first.Stale[id] {
			stale++
			if diff := cmp.Diff(before.Buses[id], first.Buses[id]); diff != "" {
				t.Errorf("%s is stale, and not what it was\n%s", id, diff)
			}
			if e, _ := assess.Explain(doc, first, id); !strings.Contains(e.Levels[0].Working[0].Text, "still to be solved") {
				t.Errorf("%s: the working does not say that it is of before: %+v", id, e.Levels[0].Working)
			}
		} else if first.Buses[id].Worst().Volts < before.Buses[id].Worst().Volts {
			t.Errorf("%s: %g V are told, of %g V, and not that more is to come", id, first.Buses[id].Worst().Volts, before.Buses[id].Worst().Volts)
		}
	}
	if stale == 0 {
		t.Error("nothing is stale, so the test tells nothing")
	}
}

// strengthen puts a strong protector where the supply comes in, so that what comes from
// there is no longer the worst everywhere.
func strengthen(t *testing.T, doc *diagram.Document) {
	t.Helper()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for _, p := range slices.Collect(tx.Document().Protectors()) {
			p.In, p.Imax = 20e3, 100e3
			tx.SetProtector(p)
		}
	})
}

// Of a building that is too large to be solved everywhere, loads that make higher surges
// come before boards and these before other loads; nothing is left out unsaid. Its loads say
// nothing of themselves, so each surge is solved twice.
func TestLargeBuildingsAreBounded(t *testing.T) {
	doc := diagramtest.Building(320)
	boards, first := 0, diagram.ID("")
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for _, part := range slices.Collect(tx.Document().Parts()) {
			if part.Kind.IsBoard() {
				boards++
			}
			if part.Kind == diagram.Load && first == "" {
				first, part.Load.Switching = part.ID, diagram.CapacitorSwitching
				tx.SetPart(part)
			}
		}
	})
	s := diagram.Surge{Name: "Inside", Places: diagram.EveryBus, Path: diagram.LineToNeutral, Wave: diagram.BurstWave, Voltage: 100, Current: 2}
	cases, findings := assess.PosedPlaces(t, doc, s)
	parts, _, _ := doc.Count()
	if want := 60_000 / (2 * parts); len(cases) != want || !slices.Contains(cases, first) {
		t.Errorf("%d places are left, want %d, with the capacitor bank: %t", len(cases), want, slices.Contains(cases, first))
	}
	of := 0
	for _, id := range cases {
		if part, _ := doc.Part(id); part.Kind.IsBoard() {
			of++
		}
	}
	if of != min(boards, len(cases)-1) {
		t.Errorf("%d boards of %d are left beside %d places", of, boards, len(cases))
	}
	if len(findings) != 1 || findings[0].Rule != "surge.not everywhere" {
		t.Errorf("got %+v", findings)
	}
	if cases, findings := assess.PosedPlaces(t, farm(t), s); len(findings) > 0 || len(cases) < 7 {
		t.Errorf("of a small one: %d places, %+v", len(cases), findings)
	}
}

// A sheet whose own cases go by what switches, and leave a kind of load out, is told.
func TestLoadsOfWhichNoCaseCounts(t *testing.T) {
	doc := farm(t)
	inside := diagram.Surge{ID: "surge-1", Name: "Inside", Places: diagram.EveryBus, Switching: diagram.OrdinarySwitching, Path: diagram.LineToNeutral, Wave: diagram.BurstWave, Voltage: 100, Current: 2}
	found := func() (out []diagram.ID) {
		result, err := new(assess.Engine).Transient(context.Background(), doc, diagram.FirstPlan)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range result.Findings {
			if f.Rule == "surge.not of a load" {
				out = append(out, f.Records[0])
			}
		}
		return out
	}
	set := func(s diagram.Surge) { diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetSurge(s) }) }
	set(inside)
	if got := found(); !slices.Equal(got, []diagram.ID{"load-3"}) { // the well pump, a motor
		t.Errorf("got %v, want the motor", got)
	}
	inside.Switching = ""
	set(inside)
	if got := found(); len(got) > 0 {
		t.Errorf("each load counts: got %v", got)
	}
}
