package app

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/app/details"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

// guarded is the house with a protector on its board.
func guarded(t testing.TB, a *App) *App {
	t.Helper()
	a.workOn(house(t), "")
	if _, err := a.editor.AttachTo("panel-1"); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	return a
}

func TestBasis(t *testing.T) {
	a := guarded(t, start(t))
	check := func(when string, want analysis.Basis) {
		t.Helper()
		if a.judgement.result.Basis != want || a.bar.basis.Selected != string(want) || a.prefs.basis() != want {
			t.Errorf("%s: the result is by the %s, the bar says %q, %q is kept", when, a.judgement.result.Basis, a.bar.basis.Selected, a.prefs.basis())
		}
		if a.bar.surge.Disabled() != (want == analysis.HandRule) || itemOf(t, a, "next surge").Disabled != a.bar.surge.Disabled() {
			t.Errorf("%s: the list of surge cases is disabled: %t, the command: %t", when, a.bar.surge.Disabled(), itemOf(t, a, "next surge").Disabled)
		}
		if got := strings.Contains(a.status.engine.Text(), "transient solved in"); got != (want == analysis.Transient) {
			t.Errorf("%s: the status line says %q", when, a.status.engine.Text())
		}
	}
	check("at first", analysis.HandRule)
	run(t, a, "basis")
	check("by key", analysis.Transient)
	if next := New(a.app, Options{Inline: true}); next.basis != analysis.Transient {
		t.Error("another start is by the hand rule")
	}
	a.bar.basis.SetSelected("hand rule")
	check("picked", analysis.HandRule)
	a.bar.basis.SetSelected("transient")
	check("picked again", analysis.Transient)
}

func TestSurgeCaseIsPicked(t *testing.T) {
	a := guarded(t, start(t))
	run(t, a, "basis")
	usual := details.SurgeNames(a.editor.Document(), a.convention())
	check := func(when, line string, names ...string) {
		t.Helper()
		var got []string
		for _, s := range a.judgement.result.Surges {
			got = append(got, s.Surge.Name)
		}
		if a.bar.surge.Selected != line || !slices.Equal(got, names) {
			t.Errorf("%s: %q is picked and %q are solved; want %q and %q", when, a.bar.surge.Selected, got, line, names)
		}
	}
	check("at first", allSurges, usual...)
	a.bar.surge.SetSelected("Supply, ring wave")
	check("picked", "Supply, ring wave", "Supply, ring wave")
	last := usual[len(usual)-1]
	a.bar.surge.SetSelected(last)
	check("picked last", last, last)
	run(t, a, "next surge")
	check("after the last", allSurges, usual...)
	run(t, a, "previous surge")
	check("before the first", last, last)
	a.bar.surge.SetSelected("Supply, ring wave")

	err := forward{a}.Change("make own", func(tx *diagram.Tx) error {
		for i, s := range analysis.SurgesOf(a.editor.Document()) {
			s.ID, s.Order = tx.NewSurgeID(), i
			tx.SetSurge(s)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	check("made the sheet's own", "Supply, ring wave", "Supply, ring wave")
	run(t, a, "undo")
	check("undone", "Supply, ring wave", "Supply, ring wave")
	a.workOn(house(t), "")
	check("on another sheet", allSurges, usual...)
}

// Of two cases of one name each has a line, and one that is gone leaves all.
func TestSurgeCasesOfOneName(t *testing.T) {
	doc := house(t)
	for _, id := range []diagram.ID{"surge-1", "surge-2"} {
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
			tx.SetSurge(diagram.Surge{ID: id, Name: "A", Path: diagram.LinesToEarth, Wave: diagram.RingWave, Voltage: 6000, Current: 500})
		})
	}
	a := start(t)
	a.workOn(doc, "")
	run(t, a, "basis")
	a.bar.surge.SetSelected("A (surge-2)")
	if got := a.judgement.result.Surges; len(got) != 1 || got[0].Surge.ID != "surge-2" {
		t.Errorf("got %d cases, first %q; want surge-2", len(got), got[0].Surge.ID)
	}
	if err := (forward{a}).Change("remove", func(tx *diagram.Tx) error { tx.Remove("surge-2"); return nil }); err != nil {
		t.Fatal(err)
	}
	if got := a.bar.surge.Selected; got != "A" { // the one that has its name
		t.Errorf("with it gone %q is picked", got)
	}
	if err := (forward{a}).Change("rename", func(tx *diagram.Tx) error {
		s, _ := tx.Surge("surge-1")
		s.Name = "B"
		tx.SetSurge(s)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	if got := a.bar.surge.Selected; got != allSurges {
		t.Errorf("with none of its name %q is picked", got)
	}
}

// The drawing keeps what it shows until the first transient is solved.
func TestMarksStayWhileTheTransientIsSolved(t *testing.T) {
	a := guarded(t, start(t))
	h := &held{}
	a.judge.run = h.executor()
	before, shown := a.judgement.result, drawn(a)
	run(t, a, "basis")
	if a.judgement.result != before || drawn(a) != shown {
		t.Error("the marks went before others came")
	}
	if got := a.status.engine.Text(); got != "solving the transient …" {
		t.Errorf("the status line says %q", got)
	}
	h.next()
	if a.judgement.result.Basis != analysis.Transient || drawn(a) == shown {
		t.Error("the transient is not shown")
	}
}

// A sheet of which nothing is shown yet has the hand rule first, which is there
// at once; later changes wait for the transient.
func TestHandRuleFirst(t *testing.T) {
	a := start(t)
	run(t, a, "basis")
	h := &held{}
	a.judge.run = h.executor()
	var got []analysis.Basis
	take := a.judge.done
	a.judge.done = func(j judgement) { got = append(got, j.result.Basis); take(j) }
	guarded(t, a)
	for h.next() {
	}
	change(t, a, "Mains")
	for h.next() {
	}
	run(t, a, "new plan")
	for h.next() {
	}
	const hand, transient = analysis.HandRule, analysis.Transient
	want := []analysis.Basis{hand, transient, hand, transient} // opened, with what follows; another plan
	got = slices.Compact(got)                                  // a transient tells what it has so far, too
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Where the transient cannot be solved, the hand rule is shown and the first
// finding says what, where and how to mend it.
func TestUnsolvedTransient(t *testing.T) {
	a := guarded(t, start(t))
	run(t, a, "basis")
	err := (forward{a}).Change("strike the annex", func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel, Name: "Annex", At: geom.Pt(200, 50), Span: 60})
		tx.SetSurge(diagram.Surge{ID: "surge-1", Name: "Far", Part: "panel-2", Path: diagram.LinesToEarth, Wave: diagram.RingWave, Voltage: 6000, Current: 500})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	result := a.judgement.result
	first := result.Findings[0]
	if result.Basis != analysis.HandRule || first.Severity != analysis.Error || !slices.Equal(first.Records, []diagram.ID{"panel-2"}) {
		t.Fatalf("shown by the %s, the first finding is %+v", result.Basis, first)
	}
	for what, words := range map[string][2]string{
		"why":             {first.Why, "Surge case Far: the system at Annex is not known"},
		"remedy":          {first.Remedy, "lead a feeder to it"},
		"status line":     {a.status.engine.Text(), "transient not solved, see the findings"},
		"notice":          {a.status.doing.Text, "the system at Annex is not known"},
		"findings beside": {wordsOf(a.findings.Object()), "The transient is not solved"},
	} {
		if !strings.Contains(words[0], words[1]) {
			t.Errorf("the %s says %q, want %q in it", what, words[0], words[1])
		}
	}
	quiet(t, a)
	run(t, a, "undo")
	if a.judgement.unsolved != nil || a.judgement.result.Basis != analysis.Transient || strings.Contains(wordsOf(a.findings.Object()), "not solved") {
		t.Error("once it is mended it is not solved")
	}
}

func TestUnsolvedFindingNamesTheProtector(t *testing.T) {
	wrong := diagram.Problem{ID: "protector-1", Place: "SPD: main; hall", What: "it cannot be calibrated", Remedy: "state another VPR"}
	got := unsolvedFinding(fmt.Errorf("at work: %w", wrong))
	if got.Why != "SPD: main; hall: it cannot be calibrated" || !slices.Equal(got.Records, []diagram.ID{"protector-1"}) || got.Remedy != "state another VPR" {
		t.Errorf("got %+v", got)
	}
	got = unsolvedFinding(errors.New("no end in sight"))
	if got.Records != nil || got.Why != "No end in sight" || got.Remedy == "" {
		t.Errorf("got %+v", got)
	}
}

// An empty sheet is no error.
func TestNothingToSolve(t *testing.T) {
	a := start(t)
	run(t, a, "basis")
	if a.judgement.unsolved != nil || len(a.judgement.result.Findings) != 0 {
		t.Errorf("got %v", a.judgement.unsolved)
	}
}

// The surge cases are shown in place of the selection until something is
// selected, or the person has done.
func TestEditSurges(t *testing.T) {
	a := guarded(t, start(t))
	shown := func() bool { return strings.Contains(wordsOf(a.details.Object()), "Surge cases") }
	if shown() {
		t.Fatal("they are shown at first")
	}
	for name, end := range map[string]func(){
		"the command again": func() { run(t, a, "edit surges") },
		"a selection":       func() { a.editor.Select("load-1"); a.refresh() },
		"its details":       a.focusDetails,
		"done":              a.endSurges,
		"another sheet":     func() { guarded(t, a) },
	} {
		a.editor.Select("panel-1")
		a.refresh()
		run(t, a, "edit surges")
		if !shown() {
			t.Errorf("before %s: they are not shown", name)
		}
		if _, ok := a.window.Canvas().Focused().(field); !ok {
			t.Errorf("%T has the focus, want the name", a.window.Canvas().Focused())
		}
		end()
		if shown() {
			t.Errorf("after %s they are still shown", name)
		}
	}
}
