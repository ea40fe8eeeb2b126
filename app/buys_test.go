package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"clampline/app/look"
	"clampline/diagram"
)

// alter changes the sheet as the window does.
func alter(t *testing.T, a *App, change func(*diagram.Tx)) {
	t.Helper()
	if err := a.editor.Change("alter", func(tx *diagram.Tx) error { change(tx); return nil }); err != nil {
		t.Fatal(err)
	}
	a.refresh()
}

func renamePanel(t *testing.T, a *App, name string) {
	t.Helper()
	alter(t, a, func(tx *diagram.Tx) {
		p, _ := tx.Part("panel-1")
		p.Name = name
		tx.SetPart(p)
	})
}

// detailsButton returns the button of the details whose text begins so, or nil.
func detailsButton(a *App, begin string) *look.Button {
	for _, b := range all[*look.Button](a.details.Object()) {
		if strings.HasPrefix(b.Text, begin) {
			return b
		}
	}
	return nil
}

// The hand rule tells at once what the selected protector buys, and follows each change.
func TestWhatItBuysByHand(t *testing.T) {
	a := guarded(t, start(t))
	a.editor.Select("protector-1")
	a.refresh()
	words := wordsOf(a.details.Object())
	for _, want := range []string{"What it buys", "By the hand rule", "2 boards and loads get a worse verdict:", "then Unreached"} {
		if !strings.Contains(words, want) {
			t.Errorf("the details do not say %q: %s", want, words)
		}
	}
	before := a.buying.buys.Hand
	renamePanel(t, a, "Hall")
	if a.buying.buys.Hand == before || !strings.Contains(wordsOf(a.details.Object()), "Hall: ") {
		t.Error("a change is not followed")
	}
	for _, other := range []diagram.ID{"panel-1", "feeder-1"} {
		a.editor.Select(other)
		if a.refresh(); strings.Contains(wordsOf(a.details.Object()), "What it buys") {
			t.Errorf("%s buys something", other)
		}
	}
}

// By the transient it is solved where somebody asks, with progress; the same button stops it,
// and a change takes the answer away.
func TestWhatItBuysByTheTransient(t *testing.T) {
	a := guarded(t, start(t))
	a.editor.Select("protector-1")
	a.refresh()
	waiting := later(a)
	ask := func() { test.Tap(detailsButton(a, "Solve it by the transient")) }
	ask()
	if len(*waiting) != 1 || detailsButton(a, "Stop (0 % solved)") == nil {
		t.Fatalf("%d pieces of work: %s", len(*waiting), wordsOf(a.details.Object()))
	}
	test.Tap(detailsButton(a, "Stop"))
	(*waiting)[0]()
	if a.buying.buys.Solved != nil || detailsButton(a, "Solve it") == nil {
		t.Error("it goes on after it was stopped")
	}
	ask()
	(*waiting)[1]()
	if words := wordsOf(a.details.Object()); !strings.Contains(words, "By the transient") || detailsButton(a, "Solve it") != nil {
		t.Errorf("the details say %s", words)
	}
	if a.buying.buys.Hand == nil {
		t.Error("the answer of the hand rule is gone")
	}
	a.run = inline()
	renamePanel(t, a, "Hall")
	if a.buying.buys.Solved != nil || detailsButton(a, "Solve it") == nil {
		t.Error("a change leaves the answer")
	}
}

// What the work of a plan costs stands below the forms of the sheet.
func TestWhatTheWorkCosts(t *testing.T) {
	a := guarded(t, start(t))
	alter(t, a, func(tx *diagram.Tx) {
		p, _ := tx.Protector("protector-1")
		p.Price = 250.5
		tx.SetProtector(p)
	})
	a.editor.Select()
	a.refresh()
	words := wordsOf(a.details.Object())
	for _, want := range []string{"What the work costs", "1 protector = 250.50", "Total", "1 protector without labour: SPD 1."} {
		if !strings.Contains(words, want) {
			t.Errorf("the details do not say %q: %s", want, words)
		}
	}
	a.editor.Select("panel-1")
	if a.refresh(); strings.Contains(wordsOf(a.details.Object()), "What the work costs") {
		t.Error("a panel has it, too")
	}
}
