package app

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"

	"clampline/analysis/assess"
	"clampline/analysis/report"
	"clampline/diagram/draw"
)

const exportDotsPerInch = 200

// export asks for a name and writes the drawing as PNG or SVG, as the ending
// says. It is judged anew, so that the drawing is never older than the sheet.
func (a *App) export() {
	d := dialog.NewFileSave(func(writer fyne.URIWriteCloser, err error) {
		switch {
		case err != nil:
			dialog.ShowError(err, a.window)
		case writer != nil:
			path := writer.URI().Path()
			_ = writer.Close() // only its name was wanted
			a.exportTo(path)
		}
	}, a.window)
	name := "drawing.png"
	if a.path != "" {
		base := filepath.Base(a.path)
		name = strings.TrimSuffix(base, filepath.Ext(base)) + ".png"
	}
	d.SetFileName(name)
	a.showFileDialog(d)
}

func (a *App) exportTo(path string) {
	if filepath.Ext(path) == "" {
		path += string(report.PNG)
	}
	if err := a.writeDrawing(path); err != nil {
		_ = removeEmpty(path)
		a.showError("The drawing was not written.", err)
		return
	}
	dialog.ShowInformation("Drawing written", wrap(path, 70), a.window)
}

func (a *App) writeDrawing(path string) error {
	format, err := report.FormatOf(path)
	if err != nil {
		return err
	}
	doc := a.editor.Document()
	result, err := assess.Run(context.Background(), doc, a.editor.Plan())
	if err != nil {
		return err
	}
	drawing := report.Drawing{
		Document: doc, Result: result, Convention: a.prefs.convention(doc), Palette: draw.Light(), DotsPerInch: exportDotsPerInch,
	}
	var out bytes.Buffer
	if err := drawing.Write(&out, format); err != nil {
		return err
	}
	return os.WriteFile(path, out.Bytes(), 0o644)
}

// removeEmpty takes away the empty file that the dialog made for a name that
// was not used.
func removeEmpty(path string) error {
	if info, err := os.Stat(path); err != nil || info.Size() > 0 {
		return err
	}
	return os.Remove(path)
}
