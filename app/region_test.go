package app

import (
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/drawer"
	"clampline/diagram"
	"clampline/diagram/geom"
)

// click clicks on the sheet as the toolkit's window does it: it takes the focus
// from all but what is clicked, and tells of a tap last.
func click(a *App, at fyne.Position) {
	canvas := a.window.Canvas()
	unfocus := func() {
		if canvas.Focused() != fyne.Focusable(a.sheet) {
			canvas.Unfocus()
		}
	}
	ev := mouse(at, desktop.MouseButtonPrimary)
	a.sheet.MouseDown(ev)
	unfocus()
	a.sheet.MouseUp(ev)
	unfocus()
	a.sheet.Tapped(&ev.PointEvent)
}

func TestDoubleClickGoesToTheDetails(t *testing.T) {
	a := start(t)
	clicks := 0
	a.sheet.Now = func() time.Time { // a busy machine makes no pair of clicks slow
		clicks++
		return time.Unix(int64((clicks+1)/2), 0)
	}
	a.workOn(house(t), "")
	for _, place := range []geom.Point{geom.Pt(0, 100), geom.Pt(-20, 50)} {
		at := on(a.editor, place)
		click(a, at)
		if a.window.Canvas().Focused() != fyne.Focusable(a.sheet) {
			t.Error("a click does not focus the sheet")
		}
		click(a, at)
		f, ok := a.window.Canvas().Focused().(field)
		if !ok {
			t.Fatalf("%T has the focus after a double click, want a field", a.window.Canvas().Focused())
		}
		part, _ := a.editor.Document().Part(a.editor.Selection()[0])
		if got := textOf(f); got != part.Name {
			t.Errorf("the field holds %q, want the name %q", got, part.Name)
		}
	}
}

func TestTypingInTheDetailsChangesTheSheet(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	f := focusedField(t, a, "panel-1")
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
	typeIn(f, "Kitchen")
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if !strings.Contains(drawn(a), "Kitchen") || a.editor.UndoLabel() != "change name" {
		t.Errorf("the sheet does not show the name; undo is %q", a.editor.UndoLabel())
	}
	if a.judgement.doc == nil || !strings.HasPrefix(a.window.Title(), "•") {
		t.Error("the window does not follow the change")
	}
}

// dragFromStrip drags the tile with the caption to a place on the sheet, or
// off it where there is none.
func dragFromStrip(t *testing.T, a *App, caption string, to *geom.Point) {
	t.Helper()
	target := fyne.NewPos(5, 5)
	if to != nil {
		target = a.app.Driver().AbsolutePositionForObject(a.sheet).Add(on(a.editor, *to))
	}
	for _, tile := range all[fyne.Draggable](a.strip.Object()) {
		if o := tile.(fyne.CanvasObject); wordsOf(o) == caption {
			for _, share := range []float32{0.2, 0.6, 1} {
				tile.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(target.X*share, target.Y*share)}})
			}
			tile.DragEnd()
			return
		}
	}
	t.Fatalf("the strip has no tile %q", caption)
}

func TestDragFromTheStrip(t *testing.T) {
	below := geom.Pt(70, 100)
	pump := geom.Pt(0, 100)
	for _, row := range []struct {
		name, caption string
		to            *geom.Point
		check         func(a *App) bool
	}{
		{"a part", "Load", &below, func(a *App) bool {
			part, ok := a.editor.Document().Part("load-2")
			return ok && part.At.Distance(below) < 3 // of snapping
		}},
		{"a protector, whatever is selected", "Protector", &pump, func(a *App) bool {
			protector, ok := a.editor.Document().Protector("protector-1")
			return ok && protector.Bus == "load-1"
		}},
		{"a part off the sheet", "Load", nil, func(a *App) bool {
			parts, _, _ := a.editor.Document().Count()
			return parts == 3 && a.editor.Armed() == ""
		}},
		{"a protector where no part is", "Protector", &below, func(a *App) bool {
			_, _, protectors := a.editor.Document().Count()
			return protectors == 0 && a.editor.Armed() == "attach protector"
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			a.workOn(house(t), "")
			a.editor.Select("panel-1")
			a.refresh()
			dragFromStrip(t, a, row.caption, row.to)
			if !row.check(a) {
				t.Errorf("the outcome is wrong; the status line says %q", a.editor.Status())
			}
		})
	}
}

// The feeder's tile takes up the tool, also with two parts selected, which the
// command would connect at once.
func TestDragOfTheFeederConnectsNothing(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("supply-1", "load-1")
	a.refresh()
	dragFromStrip(t, a, "Feeder", &geom.Point{X: 70, Y: 100})
	if _, feeders, _ := a.editor.Document().Count(); feeders != 2 {
		t.Errorf("got %d feeders, want the two there were", feeders)
	}
}

func TestStatusLineSaysWhatTheToolWaitsFor(t *testing.T) {
	a := start(t)
	run(t, a, "place panel")
	if got := a.editor.Armed(); got != "place panel" {
		t.Fatalf("armed: %q", got)
	}
	if !strings.Contains(a.status.doing.Text, "Click where the panel goes") {
		t.Errorf("the status line says %q", a.status.doing.Text)
	}
}

// A protector from the strip starts with what is usual for the system there.
func TestNewProtectorFitsTheSystem(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("load-1")
	run(t, a, "attach protector")
	protector, ok := a.editor.Document().Protector("protector-1")
	supply, _ := a.editor.Document().Part("supply-1")
	if !ok || protector.System != supply.System || !protector.Modes[diagram.LineLine].Connected {
		t.Errorf("got %+v, want one for %s", protector, supply.System)
	}
}

// tabTexts returns what stands on the tabs of the drawer, and on the button that
// closes it.
func tabTexts(a *App) []string {
	var out []string
	for _, line := range strings.Split(wordsOf(a.regions.drawer.Object()), "\n") {
		out = append(out, strings.TrimSpace(line))
	}
	return out
}

func TestFindingGoesThere(t *testing.T) {
	a := start(t)
	a.workOn(demo(t, 0), "")
	a.editor.Zoom100()
	a.refresh()
	lists := all[lister](a.findings.Object())
	if len(lists) != 1 || len(a.judgement.result.Findings) == 0 {
		t.Fatal("the demo has no findings")
	}
	for i, finding := range a.judgement.result.Findings {
		if len(finding.Records) == 0 {
			continue
		}
		lists[0].Select(i)
		box, ok := a.editor.Scene().Box(finding.Records[0])
		if !ok || !slices.Contains(a.editor.Selection(), finding.Records[0]) {
			t.Errorf("%q: %q is selected, want %q", finding.What, a.editor.Selection(), finding.Records)
		}
		if !a.editor.View().Rect().Overlaps(box) {
			t.Errorf("%q: the view does not show it", finding.What)
		}
	}
	if !slices.ContainsFunc(tabTexts(a), func(text string) bool { return strings.HasPrefix(text, "Findings ") }) {
		t.Errorf("the tab does not say their number: %q", tabTexts(a))
	}
}

// lister is a list of which lines can be picked.
type lister interface {
	Select(widget.ListItemID)
	Highlight(widget.ListItemID)
}

func TestDrawer(t *testing.T) {
	a := start(t)
	height := a.sheet.Size().Height
	run(t, a, "findings")
	if a.sheet.Size().Height <= height || a.prefs.drawer() {
		t.Errorf("closed: the sheet is %g high, and was %g", a.sheet.Size().Height, height)
	}
	if next := startIn(t, a.app); next.regions.open {
		t.Error("another start opens it again")
	}
	run(t, a, "findings")
	if a.sheet.Size().Height != height {
		t.Errorf("open again: the sheet is %g high, and was %g", a.sheet.Size().Height, height)
	}
}

// A command of a view opens the drawer on it, and closes it only where that
// view is the one that is shown. The view shown last is shown at the next start.
func TestViewsOfTheDrawer(t *testing.T) {
	const other = "Notes"
	a := start(t)
	a.regions.drawer.Add(other, widget.NewLabel("other"))
	a.toggleView(other)
	if !a.regions.open || a.regions.drawer.Shown() != other || a.prefs.view() != other {
		t.Errorf("open: %t on %q, %q is kept", a.regions.open, a.regions.drawer.Shown(), a.prefs.view())
	}
	run(t, a, "findings")
	if !a.regions.open || a.regions.drawer.Shown() != viewFindings || a.prefs.view() != viewFindings {
		t.Errorf("the findings: open: %t on %q", a.regions.open, a.regions.drawer.Shown())
	}
	run(t, a, "findings")
	if a.regions.open {
		t.Error("the command of the view that is shown does not close it")
	}
	a.prefs.setView("gone")
	if next := startIn(t, a.app); next.regions.drawer.Shown() != viewFindings {
		t.Errorf("a view that is gone: %q is shown", next.regions.drawer.Shown())
	}
}

func TestFilterIsKept(t *testing.T) {
	a := start(t)
	want := drawer.Settings{Hide: [3]bool{analysis.Remark: true, analysis.Error: true}, Grouping: drawer.ByPart}
	a.prefs.setFindings(want)
	if got := startIn(t, a.app).prefs.findings(); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// Sheet and drawer stay where they are when something else is selected: the
// width of the details does not follow from what they show.
func TestDetailsKeepTheirWidth(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	for i := range 3 {
		a := start(t)
		a.app.Settings().SetTheme(a.look)
		a.window.Resize(fyne.NewSize(1024, 700))
		a.workOn(demo(t, i), "")
		want := a.sheet.Size().Width
		doc := a.editor.Document()
		var ids []diagram.ID
		for p := range doc.Parts() {
			ids = append(ids, p.ID)
		}
		for f := range doc.Feeders() {
			ids = append(ids, f.ID)
		}
		for p := range doc.ProtectorsOf(a.editor.Plan()) {
			ids = append(ids, p.ID)
		}
		for _, id := range ids {
			a.editor.Select(id)
			a.refresh()
			if got := a.sheet.Size().Width; got != want {
				t.Errorf("with %s selected the sheet is %g wide, want %g", id, got, want)
			}
			const margin = 14 // at the right of the details, which a row may use up
			if got := a.details.Object().MinSize().Width; got > detailsWidth+margin {
				t.Errorf("%s: the details ask for %g px of %d and are cut off", id, got, detailsWidth)
			}
		}
	}
}
