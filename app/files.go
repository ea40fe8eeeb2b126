package app

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/file"
)

// newSheet starts an empty sheet.
func (a *App) newSheet() {
	a.unlessUnsaved(func() { a.replace(diagram.New(), "") })
}

// replace makes another document the one that is worked on; what was open is
// done with, and so is its recovery copy.
func (a *App) replace(doc *diagram.Document, path string) {
	a.copy.forget()
	a.take(doc, path)
}

// open asks for a file and opens it.
func (a *App) open() {
	a.unlessUnsaved(func() {
		d := dialog.NewFileOpen(func(reader fyne.URIReadCloser, err error) {
			switch {
			case err != nil:
				dialog.ShowError(err, a.window)
			case reader != nil:
				path := reader.URI().Path()
				_ = reader.Close() // only its name was wanted
				a.openPath(path)
			}
		}, a.window)
		d.SetFilter(storage.NewExtensionFileFilter([]string{file.Extension}))
		a.showFileDialog(d)
	})
}

// showFileDialog shows the dialog large, in the folder of the open file.
func (a *App) showFileDialog(d *dialog.FileDialog) {
	if a.path != "" {
		if folder, err := storage.ListerForURI(storage.NewFileURI(filepath.Dir(a.path))); err == nil {
			d.SetLocation(folder)
		}
	}
	d.Resize(fyne.NewSize(860, 560))
	d.Show()
}

// OpenPath opens the file in place of what is open. A file that is not there
// yet gives an empty sheet that will be saved under that name.
func (a *App) OpenPath(path string) { a.openPath(path) }

func (a *App) openPath(path string) {
	full, err := filepath.Abs(path)
	if err != nil {
		full = path
	}
	doc, err := file.Load(full)
	switch {
	case errors.Is(err, fs.ErrNotExist) && filepath.Ext(full) == file.Extension:
		a.replace(diagram.New(), full)
		return
	case err != nil:
		a.showError("The file was not opened; what was open still is.", err)
		return
	}
	a.replace(doc, full)
	a.prefs.addRecent(full)
	a.refresh()
}

// openDropped opens the first sheet among files dropped on the window.
func (a *App) openDropped(files []fyne.URI) {
	for _, uri := range files {
		if uri.Extension() == file.Extension {
			a.unlessUnsaved(func() { a.openPath(uri.Path()) })
			return
		}
	}
	a.showError("Nothing was opened.", fmt.Errorf("none of the dropped files ends in %s", file.Extension))
}

// openDemo asks for one of the demo sheets and opens it without a path, so
// that the demo itself is never written over.
func (a *App) openDemo() {
	a.unlessUnsaved(func() {
		var names []string
		for _, demo := range assets.Demos() {
			names = append(names, demo.Title)
		}
		a.choose("Open a demo", "Invented buildings to try things on.", names, func(i int) {
			doc, err := file.Read(strings.NewReader(assets.Demos()[i].Text))
			if err != nil {
				a.showError("The demo was not opened.", err)
				return
			}
			a.replace(doc, "")
		})
	})
}

// save writes the file under its name, or asks for one; then runs then, which
// may be nil, where the file was written.
func (a *App) save(then func()) {
	if a.path == "" {
		a.saveAs(then)
		return
	}
	a.write(a.path, then)
}

// saveAs asks for a name and writes the file.
func (a *App) saveAs(then func()) {
	d := dialog.NewFileSave(func(writer fyne.URIWriteCloser, err error) {
		switch {
		case err != nil:
			dialog.ShowError(err, a.window)
		case writer != nil:
			path := writer.URI().Path()
			_ = writer.Close() // only its name was wanted; the file is written whole below
			a.write(withExtension(path), then)
		}
	}, a.window)
	name := "building" + file.Extension
	if a.path != "" {
		name = filepath.Base(a.path)
	}
	d.SetFileName(name)
	a.showFileDialog(d)
}

// withExtension adds the ending where it is missing.
func withExtension(path string) string {
	if filepath.Ext(path) == file.Extension {
		return path
	}
	return path + file.Extension
}

func (a *App) write(path string, then func()) {
	if err := file.Save(path, a.editor.Document()); err != nil {
		a.showError("The sheet was not saved.", err)
		return
	}
	a.path = path
	a.editor.MarkSaved()
	a.copy.forget()
	a.prefs.addRecent(path)
	a.shown = shown{} // the title and the status line follow
	a.refresh()
	if then != nil {
		then()
	}
}

// close ends the program, after a question where there is something to save.
func (a *App) close() {
	a.unlessUnsaved(func() {
		a.prefs.setSize(a.window.Canvas().Size())
		a.copy.forget()
		a.copy.stop()
		a.window.SetCloseIntercept(nil)
		a.window.Close()
	})
}
