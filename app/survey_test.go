package app

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit/edittest"
)

const toPrint, asTable, onPhone = "Sheets to print (PDF)", "A table to fill in at a computer (CSV)", "A page to fill in on a phone (HTML)"

func TestSurveySheets(t *testing.T) {
	for _, row := range []struct {
		name, form, about, typed, want, begins string
		selected                               bool
		lacks, has                             string
	}{
		{"PDF", toPrint, "Of every panel", "survey.pdf", "survey.pdf", "%PDF-", false, "", "/Count 2"},
		{"no ending", toPrint, "Of every panel", "survey", "survey.pdf", "%PDF-", false, "", "/Count 2"},
		{"table", asTable, "Of every panel", "survey.csv", "survey.csv", "\ufeff\"# Survey of", false, "", "\npanel-1,Main,Grid,"},
		{"no ending of a table", asTable, "Of every panel", "survey", "survey.csv", "\ufeff\"# Survey of", false, "", "\npanel-1,Main,Grid,"},
		{"the ending typed counts", toPrint, "Of every panel", "survey.csv", "survey.csv", "\ufeff\"# Survey of", false, "", "\npanel-1,Main,Grid,"},
		{"page for a phone", onPhone, "Of every panel", "survey.html", "survey.html", "<!DOCTYP", false, "", "Save CSV"},
		{"of what is selected", asTable, "Of the board that is selected.", "survey.csv", "survey.csv", "\ufeff\"# Survey of", true, "panel-1,", "\npanel-2,Barn,"},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			a.workOn(house(t), "")
			addPanel(t, a, row.selected)
			run(t, a, "survey")
			says(t, a, row.about)
			answer(t, a, row.form)
			nameFile(t, a, "", row.typed)
			quiet(t, a)
			text, err := os.ReadFile(filepath.Join(os.Getenv("HOME"), row.want))
			if err != nil || !strings.HasPrefix(string(text), row.begins) {
				t.Fatalf("the file begins with %.9q (%v)", text, err)
			}
			if !strings.Contains(string(text), row.has) || row.lacks != "" && strings.Contains(string(text), row.lacks) {
				t.Errorf("the file has %q: want it; lacks %q: want that", row.has, row.lacks)
			}
			if got := a.status.doing.Text; !strings.HasPrefix(got, "Survey sheets written to "+row.want) {
				t.Errorf("the status line says %q", got)
			}
		})
	}
}

// addPanel adds a second panel and selects it with a load, or does nothing.
func addPanel(t *testing.T, a *App, add bool) {
	t.Helper()
	if !add {
		return
	}
	doc := house(t)
	panel, _ := doc.Part("panel-1")
	panel.ID, panel.Name = "panel-2", "Barn"
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetPart(panel) })
	a.workOn(doc, "")
	a.editor.Select("panel-2", "load-1")
	a.refresh()
}

func TestSurveySheetsThatCannotBe(t *testing.T) {
	a := start(t)
	path := filepath.Join(t.TempDir(), "survey.pdf")
	a.writeSurveyTo(path, surveyPDF)
	says(t, a, "no panel and no switchboard")
	answer(t, a, "Close")
	a.workOn(house(t), "")
	a.writeSurveyTo(strings.TrimSuffix(path, "pdf")+"doc", surveyPDF)
	says(t, a, "use .pdf, .csv or .html")
	if exists(path) {
		t.Error("a file was left behind")
	}
}

// table writes a filled-in survey and returns its path.
func table(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "filled.csv")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

const filledIn = "Panel id,Bus rating,Spaces,Colour\npanel-1,225 A,42,grey\npanel-7,100 A,,\n"

// reviewOf opens the table on the house and returns the lists of its review from
// the top down.
func reviewOf(t *testing.T, a *App, text string) []*reviewList {
	t.Helper()
	a.workOn(house(t), "")
	a.readSurvey(table(t, text))
	lists := all[*reviewList](asked(t, a))
	slices.SortFunc(lists, func(x, y *reviewList) int { return cmp.Compare(topOf(x), topOf(y)) })
	return lists
}

// topOf is where an object stands in the window.
func topOf(o fyne.CanvasObject) float32 {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y
}

func takeButton(t *testing.T, a *App) *button {
	t.Helper()
	for _, b := range all[*button](asked(t, a)) {
		if b.Text == "Import what is ticked" {
			return b
		}
	}
	t.Fatal("there is no button to take it")
	return nil
}

func TestTakeSurvey(t *testing.T) {
	a := start(t)
	lists := reviewOf(t, a, filledIn)
	if len(lists) != 2 || lists[0].Length() != 2 || lists[1].Length() != 2 {
		t.Fatalf("got %d lists, want one of what was not read and one of changes", len(lists))
	}
	if len(all[*tick](lists[0])) > 0 || len(all[*tick](lists[1])) != 2 {
		t.Error("what was not read does not stand above the changes")
	}
	for _, words := range []string{
		"filled.csv: 1 row, 2 changes, 2 things not read.", "2 of 2 ticked",
		"Main, bus rating: not known → 225 A", "Main, spaces: not known → 42", "Not read",
		"Row 1, Colour: the survey has no such column", "Row 3, Panel id: the drawing has no panel with the id “panel-7”",
	} {
		says(t, a, words)
	}
	before := edittest.Text(t, a.editor.Document())
	lists[1].Select(1) // a tap beside the box
	says(t, a, "1 of 2 ticked")
	answer(t, a, "Import what is ticked")
	quiet(t, a)
	if p, _ := a.editor.Document().Part("panel-1"); p.Board.Rating != 225 || p.Board.Spaces != 0 {
		t.Errorf("got %+v, want the rating alone", p.Board)
	}
	if got := a.status.doing.Text; got != "1 change imported, 2 things not read" {
		t.Errorf("the status line says %q", got)
	}
	if got := a.editor.UndoLabel(); got != "import survey" {
		t.Errorf("undo takes back %q", got)
	}
	run(t, a, "undo")
	if edittest.Text(t, a.editor.Document()) != before || a.editor.CanUndo() {
		t.Error("one undo does not take the survey back")
	}
}

func TestTicksOfTheSurvey(t *testing.T) {
	a := start(t)
	lists := reviewOf(t, a, filledIn)
	boxes, take := all[*tick](lists[1]), takeButton(t, a)
	if len(boxes) != 2 {
		t.Fatalf("%d boxes show, want one for each change", len(boxes))
	}
	test.Tap(boxes[0])
	says(t, a, "1 of 2 ticked")
	answer(t, a, "Tick none")
	says(t, a, "0 of 2 ticked")
	if !take.Disabled() {
		t.Error("nothing is ticked, and it can be taken")
	}
	if boxes[0].Checked || boxes[1].Checked {
		t.Error("a box still is ticked")
	}
	answer(t, a, "Tick all")
	says(t, a, "2 of 2 ticked")
	if take.Disabled() {
		t.Error("all is ticked, and it cannot be taken")
	}
	lists[0].Select(1) // nothing to tick
	says(t, a, "2 of 2 ticked")
	answer(t, a, "Tick none")
	for _, press := range []func(){func() { test.Tap(take) }, func() { press(a, fyne.KeyReturn) }} {
		a.window.Canvas().Unfocus()
		press()
		if !a.isAsking() || a.editor.CanUndo() {
			t.Fatal("nothing was ticked, and it was taken")
		}
	}
}

// Enter takes, Escape leaves all as it is, wherever the focus is.
func TestKeysAnswerTheSurvey(t *testing.T) {
	for _, row := range []struct {
		key   fyne.KeyName
		tabs  int
		taken bool
	}{{fyne.KeyReturn, 0, true}, {fyne.KeyEscape, 0, false}, {fyne.KeyEscape, 1, false}, {fyne.KeyEscape, 3, false}, {fyne.KeyEscape, 5, false}} {
		a := start(t)
		reviewOf(t, a, filledIn)
		for range row.tabs {
			a.window.Canvas().FocusNext()
		}
		press(a, row.key)
		quiet(t, a)
		if a.editor.CanUndo() != row.taken {
			t.Errorf("%s after %d tabs: taken %t, want %t", row.key, row.tabs, !row.taken, row.taken)
		}
	}
}

func TestSurveyWithoutChanges(t *testing.T) {
	a := start(t)
	reviewOf(t, a, "Panel id,Bus rating\npanel-1,\n")
	says(t, a, "filled.csv: 1 row, 0 changes, 0 things not read.")
	answer(t, a, "Close")
	if a.editor.CanUndo() {
		t.Error("something was changed")
	}
}

func TestSurveyThatIsNone(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.readSurvey(table(t, "no survey"))
	says(t, a, "Survey not imported")
	says(t, a, "filled.csv The table has no column “Panel id”")
	answer(t, a, "Close")
	a.readSurvey(filepath.Join(t.TempDir(), "gone.csv"))
	says(t, a, "Survey not imported")
}

func TestSurveyIsPickedByName(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	if err := os.WriteFile(filepath.Join(os.Getenv("HOME"), "filled.csv"), []byte(filledIn), 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, a, "import survey")
	pick(t, a, "filled.csv")
	answer(t, a, "Open")
	says(t, a, "2 changes")
}

// A long review can be scrolled to its end.
func TestLongSurvey(t *testing.T) {
	a := start(t)
	lists := reviewOf(t, a, filledIn+strings.Repeat("panel-8,100 A,,\n", 300))
	lists[0].ScrollToBottom()
	says(t, a, "Row 303, Panel id")
	says(t, a, "Main, spaces: not known → 42")
}

// What was not read can be taken along before the dialog closes.
func TestCopyWhatWasNotRead(t *testing.T) {
	a := start(t)
	reviewOf(t, a, filledIn)
	answer(t, a, "Copy as text")
	says(t, a, "Copied")
	got := a.app.Clipboard().Content()
	for _, want := range []string{"filled.csv: 2 things not read\n", "Row 1, Colour: the survey has no such column", "Row 3, Panel id: the drawing has no panel with the id “panel-7”"} {
		if !strings.Contains(got, want) {
			t.Errorf("the clipboard has %q, want %q", got, want)
		}
	}
	if lines := strings.Count(got, "\n"); lines != 3 {
		t.Errorf("%d lines, want one for each and a heading", lines)
	}
}

// A protector that was found comes into the plan that is shown.
func TestSurveyAddsAProtector(t *testing.T) {
	a := start(t)
	reviewOf(t, a, "Panel id,Protector,Type or class\npanel-1,SPD-9,type 2\n")
	says(t, a, "New protector SPD-9 on Main: type 2")
	answer(t, a, "Import what is ticked")
	quiet(t, a)
	for p := range a.editor.Document().ProtectorsOf(a.editor.Plan()) {
		if p.Name == "SPD-9" && p.Bus == "panel-1" && p.Type == diagram.Type2 {
			return
		}
	}
	t.Error("the protector is not on the sheet")
}

// While a record is shown a table goes into it, with the protectors of the plan that was
// carried out; the plan stays as it is.
func TestTableGoesIntoTheRecordThatIsShown(t *testing.T) {
	a := start(t)
	doc := house(t)
	if _, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetProtector(diagram.Protector{ID: "protector-9", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD-9"})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	a.workOn(doc, "")
	run(t, a, "record")
	record, ok := a.editor.Document().RecordOf(diagram.FirstPlan)
	if !ok || a.editor.Plan() != record.ID {
		t.Fatalf("%s is shown", a.editor.Plan())
	}
	a.readSurvey(table(t, "Panel id,Protector id,Installed on,Ground lead\npanel-1,protector-9,2026-11-29,9 in\n"))
	answer(t, a, "Import what is ticked")
	planned, _ := a.editor.Document().Protector("protector-9")
	built, _ := a.editor.Document().Protector(diagram.Counterparts(a.editor.Document(), diagram.FirstPlan, record.ID)["protector-9"])
	if planned.Installed != (diagram.Installed{}) || built.Installed != (diagram.Installed{Date: "2026-11-29", Measured: true}) {
		t.Errorf("planned %+v, built %+v", planned.Installed, built.Installed)
	}
}
