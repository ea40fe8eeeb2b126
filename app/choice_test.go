package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/library"
)

// offered presses the button that mends the first finding on the cover of a
// part, and returns what the menu above it offers.
func offered(t *testing.T, a *App, part diagram.ID) []fyne.CanvasObject {
	t.Helper()
	found := a.judgement.result.Findings
	at := slices.IndexFunc(found, func(f analysis.Finding) bool {
		return f.Subject == analysis.SubjectCover && f.Records[0] == part && f.Mend.IsThere()
	})
	if at < 0 {
		t.Fatalf("nothing about %s can be mended", part)
	}
	list(a, found[at])
	a.findings.ShowFirst()
	test.Tap(buttonOf(t, a, "Mend it"))
	menus := all[*widget.PopUpMenu](a.window.Canvas().Overlays().Top())
	if len(menus) != 1 {
		t.Fatalf("%d menus are shown, want one for: %s", len(menus), found[at].What)
	}
	return menus[0].Items
}

// tapItem presses the item of a menu that begins with a text.
func tapItem(t *testing.T, items []fyne.CanvasObject, begin string) {
	t.Helper()
	for _, item := range items {
		if tappable, ok := item.(fyne.Tappable); ok && strings.HasPrefix(wordsOf(item), begin) {
			test.Tap(tappable)
			return
		}
	}
	t.Fatalf("the menu has no %q", begin)
}

func unprotected(t *testing.T) *App {
	t.Helper()
	a := start(t)
	a.workOn(house(t), "")
	a.refresh()
	return a
}

// A board that nothing holds gets the protector that is picked, and what was
// found is gone; one undo takes it away.
func TestPlaceHere(t *testing.T) {
	a := unprotected(t)
	items := offered(t, a, "panel-1")
	if len(items) < 3 || len(items) > 7 {
		t.Errorf("%d items are offered, want up to five protectors, a line, and all of them", len(items))
	}
	tapItem(t, items, "Type 2, 480Y/277 V")
	placed := slices.Collect(a.editor.Document().ProtectorsOf(a.editor.Plan()))
	if len(placed) != 1 || placed[0].SCCR != 200e3 || placed[0].Name == "" {
		t.Fatalf("%+v is placed, want one of 480Y/277 V", placed)
	}
	if got := a.status.doing.Text; !strings.HasPrefix(got, "Mended: place Type 2 on ") {
		t.Errorf("the status line says %q", got)
	}
	if slices.ContainsFunc(a.judgement.result.Findings, func(f analysis.Finding) bool {
		return f.Subject == analysis.SubjectCover && f.Records[0] == placed[0].Bus
	}) {
		t.Error("the finding is still there")
	}
	run(t, a, "undo")
	if len(slices.Collect(a.editor.Document().ProtectorsOf(a.editor.Plan()))) != 0 {
		t.Error("one undo does not take it away")
	}
}

// The rest is in the library, narrowed to what fits.
func TestAllThatFit(t *testing.T) {
	a := unprotected(t)
	tapItem(t, offered(t, a, "panel-1"), "All ")
	if !a.library.isSeen() {
		t.Fatal("the library is not shown")
	}
	words := wordsOf(a.library.view.Object())
	if !strings.Contains(words, "480Y/277 V") || strings.Contains(words, "208Y/120 V") {
		t.Errorf("the library lists %q, want those for 480Y/277 V alone", words)
	}
}

// What fits a bus does not depend on what stands there: a single-phase protector
// does not fit a board of three lines because a whole one is put on it.
func TestFitIsTheSameAfterPutting(t *testing.T) {
	a := unprotected(t)
	a.editor.Select("panel-1")
	a.showView(viewProtectors)
	a.library.show()
	a.library.view.ShowFitting()
	before := tallied(a)
	kinds := library.BuiltIn()
	whole := kinds[slices.IndexFunc(kinds, func(e library.Entry) bool { return e.Protector.ID == "type-2-480Y-277" })]
	a.library.put(whole)
	a.editor.Select("panel-1")
	a.refresh()
	if after := tallied(a); before == "" || after != before {
		t.Errorf("%q fit before one was put there, %q after", before, after)
	}
	check := a.library.checker([]diagram.ID{"panel-1"})
	single := kinds[slices.IndexFunc(kinds, func(e library.Entry) bool { return e.Protector.ID == "type-2-277-lighting" })]
	if found := check(single); !slices.ContainsFunc(found, func(f analysis.Finding) bool {
		return f.Severity == analysis.Error && f.Subject == analysis.SubjectPhases
	}) {
		t.Errorf("got %+v, want that it lacks two lines", found)
	}
}

// tallied returns how many protectors the library lists.
func tallied(a *App) string {
	for _, line := range strings.Split(wordsOf(a.library.view.Object()), "\n") {
		if strings.HasSuffix(line, "shown") {
			return line
		}
	}
	return ""
}
