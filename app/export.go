package app

import (
	"errors"
	"io"

	"clampline/analysis/report"
	"clampline/diagram/file"
)

const exportDotsPerInch = 200

// export asks for a name and writes the drawing in the format that the ending says.
func (a *App) export() {
	a.askForName("Export drawing", "Drawing not written", a.nameLike("drawing", "", string(report.PNG)), drawingTypes(), a.exportTo)
}

// drawingTypes returns the types of a drawing.
func drawingTypes() []fileType {
	return typesOf(report.PNG, report.SVG, report.PDF, report.DXF)
}

// exportTo writes the drawing; a name without an ending gets that of a PNG.
func (a *App) exportTo(path string) {
	a.withEnding(path, string(report.PNG), a.drawTo)
}

// drawTo writes the drawing once the sheet as it is now has been judged, so
// that the drawing is never older than the sheet.
func (a *App) drawTo(path string) {
	editor := a.editor
	a.judge.afterwards(func() {
		err := errors.New("another sheet was opened before this one was solved; open it and export again")
		if a.editor == editor {
			err = a.writeDrawing(path)
		}
		switch {
		case err != nil:
			a.showError("Drawing not written", err)
		case a.judgement.unsolved != nil:
			a.note("The transient is not solved: drawing by the hand rule written to " + shorten(path))
		default:
			a.note("Drawing written to " + shorten(path))
		}
	})
}

// errNotJudged says why there is nothing to write.
var errNotJudged = errors.New("the sheet is not judged, see the findings; mend it and export again")

func (a *App) writeDrawing(path string) error {
	format, err := report.FormatOf(path)
	if err != nil {
		return err
	}
	if a.judgement.gaveUp {
		return errNotJudged
	}
	drawing := report.Drawing{
		Document: a.judgement.snapshot, Result: a.judgement.result, Convention: a.convention(), Palette: report.Light(), DotsPerInch: exportDotsPerInch,
	}
	return file.Export(path, func(w io.Writer) error { return drawing.Write(w, format) })
}
