package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"clampline/analysis"
	"clampline/diagram"
)

// twoPlans is the house with a protector in its second plan alone, that plan shown, and the
// comparison open.
func twoPlans(t *testing.T, a *App) *App {
	t.Helper()
	a.workOn(house(t), "")
	run(t, a, "new plan")
	if _, err := a.editor.AttachTo("panel-1"); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	run(t, a, "compare")
	return a
}

func comparisonWords(a *App) string { return wordsOf(a.comparison.view.Object()) }

// The plans stand side by side as soon as the view is seen, the shown one as it was judged; a
// change of one is followed, and the other plan is not solved again for it.
func TestComparisonInTheDrawer(t *testing.T) {
	a := twoPlans(t, start(t))
	words := comparisonWords(a)
	for _, want := range []string{"Main", "Pump", "As found", "▸ Plan 2", "U 2", "no protector", "all 2 shown · by the hand rule", "nothing to buy or do"} {
		if !strings.Contains(words, want) {
			t.Errorf("the view does not say %q: %s", want, words)
		}
	}
	second := a.editor.Plan()
	if a.comparison.known[second] != a.judgement.result {
		t.Error("the shown plan was solved again")
	}
	first := a.comparison.known[diagram.FirstPlan]
	if first == nil {
		t.Fatal("the first plan is not solved")
	}
	renamePanel(t, a, "Hall")
	if a.comparison.known[second] != a.judgement.result || !strings.Contains(comparisonWords(a), "Hall") {
		t.Errorf("the view does not follow a change: %s", comparisonWords(a))
	}
	if a.comparison.known[diagram.FirstPlan] == first {
		t.Error("a change of the building leaves the other plan as it was")
	}
	first = a.comparison.known[diagram.FirstPlan]
	if _, err := a.editor.AttachTo("load-1"); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	if a.comparison.known[diagram.FirstPlan] != first {
		t.Error("a protector of one plan has the other plan solved again")
	}
	run(t, a, "basis")
	if words := comparisonWords(a); !strings.Contains(words, "by the transient") || a.comparison.known[diagram.FirstPlan].Basis != analysis.Transient {
		t.Errorf("the view does not follow the basis: %s", words)
	}
}

// Nothing is solved while nobody sees the view, and what is under way stops.
func TestComparisonThatNobodySees(t *testing.T) {
	a := twoPlans(t, start(t))
	run(t, a, "compare") // closes the drawer
	run(t, a, "basis")
	if len(a.comparison.known) != 0 {
		t.Errorf("got %d results", len(a.comparison.known))
	}
	waiting := later(a)
	run(t, a, "compare")
	if a.comparison.seeking == nil || len(*waiting) != 1 {
		t.Fatalf("got %d pieces of work", len(*waiting))
	}
	if !strings.Contains(comparisonWords(a), "solving plan 1 of 1, 0 %") {
		t.Errorf("the view does not say what is going on: %s", comparisonWords(a))
	}
	run(t, a, "compare")
	(*waiting)[0]()
	if a.comparison.seeking != nil || a.comparison.known[diagram.FirstPlan] != nil {
		t.Error("the work went on though nobody sees the view")
	}
}

// A key goes to the place under the cursor, or to the plan beside; a click goes there.
func TestComparisonGoesThere(t *testing.T) {
	a := twoPlans(t, start(t))
	list := all[interface {
		fyne.Focusable
		Select(int)
	}](a.comparison.view.Object())[0]
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := a.editor.Selection(); len(got) != 1 || got[0] != "load-1" {
		t.Errorf("Enter selects %v", got)
	}
	list.Select(0)
	if got := a.editor.Selection(); len(got) != 1 || got[0] != "panel-1" {
		t.Errorf("a click selects %v", got)
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if a.editor.Plan() != diagram.FirstPlan || !strings.Contains(comparisonWords(a), "▸ As found") {
		t.Errorf("Left shows %s", a.editor.Plan())
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if a.editor.Plan() != diagram.FirstPlan {
		t.Error("there is a plan before the first")
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if a.editor.Plan() == diagram.FirstPlan {
		t.Error("Right does not show the next plan")
	}
}

// The view of an empty sheet says so, and going from a view with rows to another view and back
// after a change does no harm.
func TestComparisonOfOtherSheets(t *testing.T) {
	a := twoPlans(t, start(t))
	a.showView(viewFindings)
	a.workOn(diagram.New(), "")
	a.showView(viewCompare)
	if words := comparisonWords(a); !strings.Contains(words, "There is nothing to compare") || strings.Contains(words, "Pump") {
		t.Errorf("got %s", words)
	}
}

// A plan that cannot be solved is told, and tried again after the next change alone.
func TestComparisonThatFails(t *testing.T) {
	a := twoPlans(t, start(t))
	waiting := later(a)
	a.comparison.known = map[diagram.ID]*analysis.Result{}
	a.refresh()
	a.comparison.version++
	a.refresh()
	if len(*waiting) != 1 {
		t.Fatalf("got %d pieces of work", len(*waiting))
	}
	a.havePlan(a.comparison.seeking, diagram.FirstPlan, nil, diagram.Problem{Place: "Pump", What: "it cannot be solved", Remedy: "look at it"})
	if words := comparisonWords(a); !strings.Contains(words, "Not solved: ") || len(*waiting) != 1 {
		t.Errorf("%d pieces of work, the view says %s", len(*waiting), words)
	}
}
