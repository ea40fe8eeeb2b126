package app

import (
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// lengthen changes the length of the second feeder.
func lengthen(t *testing.T, doc *diagram.Document, metres float64) {
	t.Helper()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		feeder, _ := tx.Feeder("feeder-2")
		feeder.Length = metres
		tx.SetFeeder(feeder)
	})
}

// byHand is a sheet and plan to be judged by the hand rule.
func byHand(doc *diagram.Document, plan diagram.ID) subject {
	return subject{doc: doc, plan: plan, basis: analysis.HandRule}
}

func TestNewestRequestWins(t *testing.T) {
	h := &held{}
	var done []judgement
	j := &judge{run: h.executor(), done: func(out judgement) { done = append(done, out) }}
	doc := house(t)
	for i, metres := range []float64{10, 20, 30, 40} {
		lengthen(t, doc, metres)
		bus := []diagram.ID{"panel-1", "panel-1", "", "load-1"}[i]
		j.ask(request{subject: byHand(doc, diagram.FirstPlan), bus: bus, convention: unit.IEC})
	}
	if len(h.jobs) != 1 || !j.isWorking() {
		t.Fatalf("%d runs are under way, working: %t; want one", len(h.jobs), j.isWorking())
	}
	for h.next() {
	}
	if len(done) != 2 || j.isWorking() {
		t.Fatalf("got %d results, working: %t; want the first and the newest", len(done), j.isWorking())
	}
	for i, want := range []float64{10, 40} {
		feeder, _ := done[i].snapshot.Feeder("feeder-2")
		load, _ := done[i].snapshot.Part("load-1")
		if feeder.Length != want || done[i].result.Topology.Node(load).Total != want+12 {
			t.Errorf("result %d: of %g m, the way is %g m; want %g and %g", i, feeder.Length, done[i].result.Topology.Node(load).Total, want, want+12)
		}
	}
	if done[0].bus != "panel-1" || done[1].bus != "load-1" || done[1].doc != doc || done[1].convention != unit.IEC {
		t.Error("the result does not say what it was asked for")
	}
}

// The same with goroutines, and a window that takes its work from a queue.
func TestJudgeBesideTheWindow(t *testing.T) {
	queue := make(chan func(), 10)
	last := make(chan judgement, 10)
	j := &judge{run: beside(func(f func()) { queue <- f }), done: func(out judgement) { last <- out }}
	doc := house(t)
	for _, metres := range []float64{10, 20, 30} {
		lengthen(t, doc, metres)
		j.ask(request{subject: byHand(doc, diagram.FirstPlan)})
	}
	for j.isWorking() {
		(<-queue)()
	}
	close(last)
	var newest judgement
	for out := range last {
		newest = out
	}
	if feeder, _ := newest.snapshot.Feeder("feeder-2"); feeder.Length != 30 {
		t.Errorf("the last result is of %g m, want 30", feeder.Length)
	}
}

func TestRequestForAPlanThatIsGone(t *testing.T) {
	h := &held{}
	j := &judge{run: h.executor(), done: func(judgement) { t.Error("got a result") }}
	j.ask(request{subject: byHand(house(t), "plan-9")})
	for h.next() {
	}
	if j.isWorking() {
		t.Error("it is still working")
	}
}

func TestResultExplainsTheBus(t *testing.T) {
	doc := house(t)
	for _, row := range []struct{ bus, want diagram.ID }{{"panel-1", "panel-1"}, {"", ""}, {"supply-1", ""}, {"feeder-1", ""}} {
		out, err := judged(t.Context(), new(assess.Engine), request{subject: byHand(doc, diagram.FirstPlan), bus: row.bus}, doc.Snapshot())
		if err != nil {
			t.Fatal(err)
		}
		if out.explained.ID != row.want || row.want != "" && len(out.explained.Levels[0].Working) == 0 {
			t.Errorf("%q: got %q explained in %d steps", row.bus, out.explained.ID, len(out.explained.Levels))
		}
	}
}

// A result that comes after another sheet was opened, or another plan picked,
// is not shown on it.
func TestResultOfAnotherSheetIsNotShown(t *testing.T) {
	for name, act := range map[string]func(*App){
		"sheet": func(a *App) { a.replace(house(t), "") },
		"plan":  func(a *App) { a.runNamed("new plan") },
	} {
		a := start(t)
		a.workOn(house(t), "")
		h := &held{}
		a.judge.run = h.executor()
		change(t, a, "Mains")
		act(a)
		before := a.judgement.result
		h.next()
		if a.judgement.result != before {
			t.Errorf("another %s: the result of the one before is shown", name)
		}
		for h.next() {
		}
		if j := a.judgement; j.result == nil || j.doc != a.editor.Document() || j.plan != a.editor.Plan() {
			t.Errorf("another %s: its own result is not shown", name)
		}
	}
}

// The marks make the drawing larger: a sheet that was just opened is fitted
// with them, but not one that the person has moved.
func TestFirstResultIsFitted(t *testing.T) {
	for _, moved := range []bool{false, true} {
		a := start(t)
		h := &held{}
		a.judge.run = h.executor()
		a.workOn(demo(t, 0), "")
		if moved {
			a.editor.Pan(edit.ScreenPoint{X: 1})
			a.refresh()
		}
		before := a.editor.View()
		h.next()
		if got := a.editor.View() == before; got != moved {
			t.Errorf("moved %t: the view stays: %t", moved, got)
		}
		if box := a.editor.Scene().Bounds(); !moved && !a.editor.View().Rect().Holds(box) {
			t.Errorf("the view %v does not show the sheet %v", a.editor.View().Rect(), box)
		}
		view := a.editor.View()
		change(t, a, "Mains")
		h.next()
		if a.editor.View() != view {
			t.Error("a later result moves the view")
		}
	}
}

// Explaining a bus costs a good part of a run: while a part is dragged the
// panel waits for the next result.
func TestWorkingWaitsForAResult(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("load-1")
	a.refresh()
	h := &held{}
	a.judge.run = h.executor()
	explained := &a.judgement.explained.Levels[0]
	lengthen := func(metres float64) {
		err := a.editor.Change("lengthen", func(tx *diagram.Tx) error {
			feeder, _ := tx.Feeder("feeder-2")
			feeder.Length = metres
			tx.SetFeeder(feeder)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		a.refresh()
	}
	lengthen(50)
	lengthen(60)
	if &a.judgement.explained.Levels[0] != explained {
		t.Error("the bus was explained without a new result")
	}
	h.next()
	if got := a.judgement.explained; got.ID != "load-1" || &got.Levels[0] == explained {
		t.Error("the new result does not explain the selected bus")
	}
	a.editor.Select("panel-1")
	a.refresh()
	if got := a.judgement.explained.ID; got != "panel-1" {
		t.Errorf("after another bus was selected, %q is explained", got)
	}
}
