package app

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"clampline/analysis"
	"clampline/analysis/survey"
	"clampline/diagram"
	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// The forms of survey sheets, which are also the endings of their files.
const (
	surveyPDF = ".pdf"
	surveyCSV = ".csv"
	phonePage = ".html"
)

// surveyTypes are the types of survey sheets.
var surveyTypes = []fileType{{"PDF pages (*" + surveyPDF + ")", surveyPDF}, {"CSV table (*" + surveyCSV + ")", surveyCSV}, {"Page for a phone (*" + phonePage + ")", phonePage}}

// writeSurvey asks for a form and a name and writes the survey sheets of the
// boards that are selected, or of all.
func (a *App) writeSurvey() {
	about := "Of every panel and switchboard. To have some of them, select those first."
	switch n := len(a.selectedBoards()); {
	case n == 1:
		about = "Of the board that is selected."
	case n > 1:
		about = fmt.Sprintf("Of the %d boards that are selected.", n)
	}
	endings := []string{surveyPDF, surveyCSV, phonePage}
	a.choose("Survey sheets", about, []string{"Sheets to print (PDF)", "A table to fill in at a computer (CSV)", "A page to fill in on a phone (HTML)"}, func(i int) { a.nameSurvey(endings[i]) })
}

// nameSurvey asks for the name of the file; the ending that it is given there
// counts.
func (a *App) nameSurvey(ending string) {
	a.askForName("Survey sheets", "Survey sheets not written", a.nameLike("survey", " survey", ending), surveyTypes, func(path string) { a.writeSurveyTo(path, ending) })
}

// writeSurveyTo writes the sheets; a name without an ending gets the one that
// was chosen.
func (a *App) writeSurveyTo(path, ending string) {
	a.withEnding(path, ending, a.surveyTo)
}

// surveyTo writes the sheets once the drawing as it is now has been judged: what
// it says of each board stands on them.
func (a *App) surveyTo(path string) {
	editor, boards := a.editor, a.selectedBoards()
	a.judge.afterwards(func() {
		err := errors.New("another sheet was opened before this one was judged; open it and write the survey sheets again")
		if a.editor == editor {
			err = a.writeSheets(path, boards)
		}
		if err != nil {
			a.showMessage("Survey sheets not written", path+"\n\n"+unit.SentenceCase(reason(err, "save "+path+": ")))
			return
		}
		a.note("Survey sheets written to " + shorten(path))
	})
}

// selectedBoards returns the panels and switchboards among what is selected.
func (a *App) selectedBoards() []diagram.ID {
	var out []diagram.ID
	for _, id := range a.editor.Selection() {
		if part, ok := a.editor.Document().Part(id); ok && part.Kind.IsBoard() {
			out = append(out, id)
		}
	}
	return out
}

func (a *App) writeSheets(path string, boards []diagram.ID) error {
	var write func(io.Writer, []survey.Sheet) error
	switch strings.ToLower(filepath.Ext(path)) {
	case surveyPDF:
		write = survey.WritePDF
	case surveyCSV:
		write = survey.WriteCSV
	case phonePage:
		write = func(w io.Writer, sheets []survey.Sheet) error {
			return survey.WritePhone(w, survey.Phone{Sheets: sheets, File: filepath.Base(a.path)})
		}
	default:
		return fmt.Errorf("the ending says the form; use %s, %s or %s", surveyPDF, surveyCSV, phonePage)
	}
	j := &a.judgement
	if j.gaveUp {
		return errNotJudged
	}
	sheets := survey.Sheets(j.snapshot, survey.AsFound(j.snapshot), j.result.Topology, j.result.Faults, boards, a.convention())
	if len(sheets) == 0 {
		return errors.New("there is no panel and no switchboard to survey; draw one first")
	}
	return file.Export(path, func(w io.Writer) error { return write(w, sheets) })
}

// importSurvey asks for a filled-in table and shows what it says.
func (a *App) importSurvey() {
	a.askForFile("Import survey", "Survey not imported", a.readSurvey, surveyCSV, ".txt", ".tsv")
}

// readSurvey reads a table and shows what it would change.
func (a *App) readSurvey(path string) {
	table, err := disk.Disk{}.Open(path)
	if err != nil {
		a.showMessage("Survey not imported", path+"\n\n"+unit.SentenceCase(reason(disk.Explain("open", path, err), "open "+path+": ")))
		return
	}
	defer table.Close()
	doc := a.editor.Document()
	review, err := a.reviewOf(table, doc)
	if err != nil {
		a.showMessage("Survey not imported", filepath.Base(path)+"\n\n"+unit.SentenceCase(err.Error())) // a name of a file keeps its letters
		return
	}
	a.showReview(filepath.Base(path), review)
}

// reviewOf reads a table into the record that is shown, and otherwise into the plan that
// records what was found.
func (a *App) reviewOf(table io.Reader, doc *diagram.Document) (survey.Review, error) {
	topology := analysis.Trace(doc)
	if shown, _ := doc.Plan(a.editor.Plan()); shown.Of != "" {
		return survey.ReadRecord(table, doc, shown, topology, a.convention())
	}
	return survey.ReadCSV(table, doc, survey.AsFound(doc), topology, a.convention())
}
