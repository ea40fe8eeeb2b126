package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/diagram"
	"clampline/diagram/edit/edittest"
)

// Another selection ends the editing of an entry.
func TestSelectionEndsTheEditing(t *testing.T) {
	a := shelved(t, libraryPath(t))
	pressed(t, a, "Duplicate")
	if a.library.editing == "" {
		t.Fatal("what was duplicated is not edited")
	}
	a.editor.Select("load-1")
	a.refresh()
	if text := wordsOf(a.details.Object()); a.library.editing != "" || !strings.Contains(text, "Pump") {
		t.Errorf("the details show %q", text)
	}
}

// Undo and redo are about the entry while that is edited: the sheet, its history
// and the form stay.
func TestUndoOfAnEntry(t *testing.T) {
	path := libraryPath(t)
	a := shelved(t, path)
	change(t, a, "Mains")
	pressed(t, a, "Duplicate")
	sheet := edittest.Text(t, a.editor.Document())
	price := func() float64 { return loaded(t, path)[0].Protector.Price }
	set := func(to float64) {
		if err := a.library.entry().Set(func(p *diagram.Protector) { p.Price = to }); err != nil {
			t.Fatal(err)
		}
	}
	before := price()
	undo, redo := func() { a.shortcut(&fyne.ShortcutUndo{}) }, func() { a.shortcut(&fyne.ShortcutRedo{}) }
	for _, step := range []struct {
		name string
		do   func()
		want float64
		said string
	}{
		{"undo without a change", undo, before, ""},
		{"one change", func() { set(100) }, 100, ""},
		{"another", func() { set(200) }, 200, ""},
		{"undo", undo, 100, "Taken back: the last change of the entry in your library."},
		{"undo by the menu", func() { itemOf(t, a, "undo").Action() }, before, "Taken back: the last change of the entry in your library."},
		{"one too many", undo, before, ""},
		{"redo", redo, 100, "Done again: the change of the entry in your library."},
		{"undo by the bar", func() { test.Tap(a.bar.undo) }, before, "Taken back: the last change of the entry in your library."},
		{"a change", func() { set(300) }, 300, ""},
		{"redo of what is gone", redo, 300, ""},
	} {
		step.do()
		if got := price(); got != step.want {
			t.Errorf("%s: the entry costs %g, want %g", step.name, got, step.want)
		}
		if a.library.editing == "" {
			t.Fatalf("%s: the form of the entry is closed", step.name)
		}
		if got := a.noticed(); step.said != "" && got != step.said {
			t.Errorf("%s: the status line says %q", step.name, got)
		}
		if edittest.Text(t, a.editor.Document()) != sheet || a.editor.UndoLabel() != "rename" {
			t.Fatalf("%s: the sheet is another one", step.name)
		}
		if got := !a.bar.undo.Disabled(); got != (len(a.library.past) > 0) {
			t.Errorf("%s: the bar offers undo: %t", step.name, got)
		}
	}
	a.library.endEditing()
	undo()
	if a.editor.CanUndo() {
		t.Error("with the form closed, undo does not reach the sheet")
	}
}

func TestPlausibleFindingsOfAnEntry(t *testing.T) {
	a := shelved(t, libraryPath(t))
	pressed(t, a, "Duplicate")
	entry := a.library.entry()
	if err := entry.Set(func(p *diagram.Protector) { p.In = 50e3; p.Modes[diagram.LineEarth].MCOV = 5000 }); err != nil {
		t.Fatal(err)
	}
	p, _ := entry.Get()
	wrong := entry.Check(p)
	if len(wrong) == 0 {
		t.Fatal("5000 V of MCOV above the level is plausible")
	}
	if text := strings.ReplaceAll(wordsOf(a.details.Object()), "\n", " "); !strings.Contains(text, strings.Fields(wrong[0].What)[0]) {
		t.Errorf("the details show %q, and not %q", text, wrong[0].What)
	}
}

// While a value is dragged it is not written at each step.
func TestDragOfAnEntryIsKeptOnce(t *testing.T) {
	path := libraryPath(t)
	a := shelved(t, path)
	pressed(t, a, "Duplicate")
	entry := a.library.entry()
	length := func() float64 { return loaded(t, path)[0].Protector.Leads.Phase.Length }
	before := length()
	for _, to := range []float64{1, 1.1, 1.2} {
		if err := entry.Drag(func(p *diagram.Protector) { p.Leads.Phase.Length = to }); err != nil {
			t.Fatal(err)
		}
	}
	if got := length(); got != before {
		t.Errorf("the file holds %g while it is dragged", got)
	}
	entry.Dropped()
	if got := length(); got != 1.2 {
		t.Errorf("the file holds %g, want 1.2", got)
	}
	a.library.entry().Back()
	if got := length(); got != before || a.library.entry().Changed {
		t.Errorf("taken back: the file holds %g, want %g", got, before)
	}
}
