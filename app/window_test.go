package app

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/file/filetest"
	"clampline/diagram/geom"
)

// start opens the program in a window without a screen, with a home folder of
// its own, and runs all background work at once.
func start(t testing.TB) *App {
	t.Helper()
	home, cache := t.TempDir(), t.TempDir()
	for name, folder := range map[string]string{"HOME": home, "XDG_CONFIG_HOME": home, "USERPROFILE": home, "XDG_CACHE_HOME": cache} {
		t.Setenv(name, folder)
	}
	return startIn(t, test.NewTempApp(t))
}

func startIn(t testing.TB, a fyne.App) *App {
	t.Helper()
	out := New(a, Options{Inline: true, Recovery: filepath.Join(t.TempDir(), "recovery")})
	out.window.Resize(fyne.NewSize(1300, 800))
	out.sure.runs = 4
	return out
}

// demo returns one of the demo sheets.
func demo(t testing.TB, i int) *diagram.Document {
	t.Helper()
	return filetest.Demos(t)[i]
}

// house returns a supply, a board and a load, which is far away.
func house(t testing.TB) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, Name: "Grid", System: wye})
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Main", At: geom.Pt(0, 50), Span: 60, Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 3}})
		tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load, Name: "Pump", At: geom.Pt(0, 100), Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 2}})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}, Length: 12})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-2", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"}, Length: 90})
	})
	return doc
}

// saved writes the document into a folder of the test and returns its path.
func saved(t testing.TB, doc *diagram.Document, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := filetest.Save(path, doc); err != nil {
		t.Fatal(err)
	}
	return path
}

// change gives the first part another name, as one entry of the history.
func change(t testing.TB, a *App, name string) {
	t.Helper()
	err := a.editor.Change("rename", func(tx *diagram.Tx) error {
		part, ok := tx.Part("supply-1")
		if !ok {
			part = diagram.Part{ID: "supply-1", Kind: diagram.Supply}
		}
		part.Name = name
		tx.SetPart(part)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	a.refresh()
}

// visit calls f for the object and all that it is made of and that shows.
func visit(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	f(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			visit(child, f)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			visit(child, f)
		}
	}
}

// all returns the objects of a type within another.
func all[T any](o fyne.CanvasObject) []T {
	var out []T
	visit(o, func(o fyne.CanvasObject) {
		if one, ok := any(o).(T); ok {
			out = append(out, one)
		}
	})
	return out
}

// wordsOf returns what is written within an object, a line for each text.
func wordsOf(o fyne.CanvasObject) string {
	var out []string
	for _, text := range texts(o) {
		out = append(out, strings.ReplaceAll(text.Text, "\u00a0", " "))
	}
	return strings.Join(out, "\n")
}

// asked returns the dialog that waits for an answer.
func asked(t testing.TB, a *App) fyne.CanvasObject {
	t.Helper()
	top := a.window.Canvas().Overlays().Top()
	if top == nil {
		t.Fatal("no dialog is shown")
	}
	return top
}

// quiet fails where a dialog is shown.
func quiet(t testing.TB, a *App) {
	t.Helper()
	if top := a.window.Canvas().Overlays().Top(); top != nil {
		t.Fatalf("a dialog is shown: %q", wordsOf(top))
	}
}

// answer presses a button of the dialog.
func answer(t testing.TB, a *App, label string) {
	t.Helper()
	var labels []string
	buttons := all[*widget.Button](asked(t, a))
	for _, own := range all[*button](asked(t, a)) {
		buttons = append(buttons, &own.Button.Button)
	}
	for _, button := range buttons {
		if button.Text == label {
			if button.Disabled() {
				t.Fatalf("the button %q may not be pressed", label)
			}
			button.OnTapped()
			return
		}
		labels = append(labels, button.Text)
	}
	t.Fatalf("the dialog has no button %q, only %q", label, labels)
}

// says fails where the dialog does not contain the words.
func says(t testing.TB, a *App, part string) {
	t.Helper()
	got := strings.Join(strings.Fields(wordsOf(asked(t, a))), " ")
	if !strings.Contains(got, part) {
		t.Errorf("the dialog says %q, want %q in it", got, part)
	}
}

// nameFile types a name into the dialog for a file and confirms it.
func nameFile(t testing.TB, a *App, folder, name string) {
	t.Helper()
	field := first[*nameField](t, asked(t, a))
	field.SetText(name)
	answer(t, a, "Save")
}

// run runs the command with the name.
func run(t testing.TB, a *App, name string) {
	t.Helper()
	if !slices.ContainsFunc(a.commands, func(c edit.Command) bool { return c.Name == name }) {
		t.Fatalf("there is no command %q", name)
	}
	a.runNamed(name)
}

// drawn returns what is written on the sheet.
func drawn(a *App) string {
	var out []string
	for _, item := range a.editor.Scene().Picture().Items() {
		if item.Text != nil {
			out = append(out, strings.ReplaceAll(item.Text.String, "\u00a0", " "))
		}
	}
	return strings.Join(out, "\n")
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// pick picks a file by its name in the dialog.
func pick(t testing.TB, a *App, name string) {
	t.Helper()
	for _, grid := range all[*widget.GridWrap](asked(t, a)) {
		for i := range grid.Length() {
			item := grid.CreateItem()
			grid.UpdateItem(i, item)
			if strings.Contains(wordsOf(item), strings.TrimSuffix(name, filepath.Ext(name))) {
				grid.Select(i)
				return
			}
		}
	}
	t.Fatalf("the dialog does not list %q", name)
}

// texts returns the texts within an object that shows.
func texts(o fyne.CanvasObject) []*canvas.Text { return all[*canvas.Text](o) }

func TestHintOnAnEmptySheet(t *testing.T) {
	a := start(t)
	if !a.regions.hint.Visible() {
		t.Error("an empty sheet has no hint")
	}
	if _, err := a.editor.DropPart(diagram.Panel, geom.Pt(0, 0)); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	if a.regions.hint.Visible() {
		t.Error("the hint stays on a sheet with a part")
	}
	run(t, a, "undo")
	if !a.regions.hint.Visible() {
		t.Error("the hint does not come back")
	}
}

func TestHintBegins(t *testing.T) {
	a := start(t)
	a.window.Resize(fyne.NewSize(1200, 800))
	for _, button := range all[*look.Button](a.regions.hint) {
		if button.Text == "Start with a service and a main switchboard" {
			test.Tap(button)
		}
	}
	if parts, feeders, _ := a.editor.Document().Count(); parts != 2 || feeders != 1 || a.regions.hint.Visible() {
		t.Fatalf("got %d parts and %d feeders, hint %t; want a service, a switchboard and a feeder", parts, feeders, a.regions.hint.Visible())
	}
	if a.window.Canvas().Focused() != fyne.Focusable(a.sheet) {
		t.Error("the sheet has not the focus")
	}
	run(t, a, "undo")
	if parts, _, _ := a.editor.Document().Count(); parts != 0 {
		t.Errorf("one undo left %d parts", parts)
	}
}

// A sheet that was fitted stays so as the window changes its size, and the bar
// says at what zoom.
func TestFitFollowsTheWindow(t *testing.T) {
	a := start(t)
	a.workOn(demo(t, 0), "")
	a.window.Resize(fyne.NewSize(900, 600))
	if !a.editor.View().Rect().Holds(a.editor.Scene().Bounds()) {
		t.Errorf("the view %v does not hold the sheet %v", a.editor.View().Rect(), a.editor.Scene().Bounds())
	}
	if got, want := a.bar.zoom.Text, percentText(a.editor.View().Percent()); got != want {
		t.Errorf("the bar says %q, want %q", got, want)
	}
}

// On a small screen the drawer can be made low.
func TestDrawerCanBeMadeLow(t *testing.T) {
	a := start(t)
	a.app.Settings().SetTheme(a.look)
	a.workOn(house(t), "")
	a.window.Resize(fyne.NewSize(1366, 700))
	if got := a.regions.split.Trailing.Size().Height; got < 220 {
		t.Errorf("at first the drawer is %g px high, want room for a finding and its buttons", got)
	}
	for _, view := range []string{viewFindings, viewProtectors} {
		a.showView(view)
		a.regions.split.SetOffset(1)
		if got := a.regions.split.Trailing.Size().Height; got > 125 {
			t.Errorf("%s: the drawer is %g px high at least, want some 120", view, got)
		}
	}
}

// The legend can be hidden, also for the next start.
func TestLegendCanBeHidden(t *testing.T) {
	a := start(t)
	a.window.Resize(fyne.NewSize(1366, 700))
	a.workOn(house(t), "")
	room := func() float64 { return a.editor.View().Height }
	with := room()
	run(t, a, "legend")
	if room() <= with {
		t.Errorf("the sheet has %g px of height without the legend, with it %g", room(), with)
	}
	without := room()
	again := New(a.app, Options{Inline: true})
	again.window.Resize(fyne.NewSize(1366, 700))
	again.workOn(house(t), "")
	if got := again.editor.View().Height; got != without {
		t.Errorf("at the next start the sheet has %g px, want %g: without the legend", got, without)
	}
	run(t, a, "legend")
	if room() != with {
		t.Errorf("the legend does not come back: %g px, want %g", room(), with)
	}
}
