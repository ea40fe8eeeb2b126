package app

import (
	"strings"
	"testing"

	"clampline/diagram"
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
