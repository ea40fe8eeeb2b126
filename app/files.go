package app

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// newSheet starts an empty sheet.
func (a *App) newSheet() {
	a.unlessUnsaved(func() { a.replace(diagram.New(), "") })
}

// replace makes another document the one that is worked on; what was open is
// done with, and so is its recovery copy.
func (a *App) replace(doc *diagram.Document, path string) {
	a.replaceHeld(doc, path, holding{})
}

// open asks for a file and opens it.
func (a *App) open() {
	a.unlessUnsaved(func() { a.askForFile("Open", "Not opened", a.openPath, file.Extension) })
}

// askForFile asks for a file with one of the endings and hands its path on;
// failed stands above the reason where that fails.
func (a *App) askForFile(title, failed string, use func(path string), endings ...string) {
	d := dialog.NewFileOpen(func(reader fyne.URIReadCloser, err error) {
		switch {
		case err != nil:
			a.showError(failed, err)
		case reader != nil:
			path := reader.URI().Path()
			_ = reader.Close() // only its name was wanted
			use(path)
		}
	}, a.window)
	d.SetTitleText(title)
	d.SetFilter(storage.NewExtensionFileFilter(endings))
	a.showFileDialog(d)
}

// showFileDialog shows the dialog large, in the folder of the open file.
func (a *App) showFileDialog(d *dialog.FileDialog) {
	if a.path != "" {
		if folder, err := storage.ListerForURI(storage.NewFileURI(filepath.Dir(a.path))); err == nil {
			d.SetLocation(folder)
		}
	}
	d.Show()
	d.Resize(fyne.NewSize(860, 560)) // the toolkit has nothing to resize before it is shown
	if top := a.window.Canvas().Overlays().Top(); top != nil {
		top.Refresh() // which brings what has grown back into the middle
	}
	if name, ok := a.window.Canvas().Focused().(fyne.Shortcutable); ok {
		name.TypedShortcut(&fyne.ShortcutSelectAll{}) // so that another name can be typed at once
	}
}

// OpenPath opens the file in place of what is open. A file that is not there
// yet gives an empty sheet that will be saved under that name.
func (a *App) OpenPath(path string) {
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) && filepath.Ext(path) == file.Extension {
		a.hold(path, disk.Stamp{}, func(h holding) { a.replaceHeld(diagram.New(), path, h) })
		return
	}
	a.openPath(path)
}

func (a *App) openPath(path string) {
	opened, err := file.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		a.prefs.dropRecent(path)
		a.menu.listRecent(a)
	}
	if err != nil {
		a.notOpened(path, err)
		return
	}
	disk.Disk{}.Clean(filepath.Dir(path))
	a.hold(path, opened.Stamp, func(h holding) {
		a.replaceHeld(opened.Document, path, h)
		a.remember(path)
		a.doubt(path, opened)
	})
}

// remember puts the path at the head of the recent files.
func (a *App) remember(path string) {
	a.prefs.addRecent(path)
	a.menu.listRecent(a)
}

// openDropped opens the first sheet among files dropped on the window.
func (a *App) openDropped(files []fyne.URI) {
	for _, uri := range files {
		if uri.Extension() == file.Extension {
			a.unlessUnsaved(func() { a.openPath(uri.Path()) })
			return
		}
	}
	a.showError("Not opened", fmt.Errorf("none of the dropped files ends in %s", file.Extension))
}

// chooseDemo asks for one of the demo sheets and opens it.
func (a *App) chooseDemo() {
	a.unlessUnsaved(func() {
		var names []string
		for _, demo := range assets.Demos() {
			names = append(names, demo.Title)
		}
		a.choose("Open a demo", "Invented buildings to try things on.", names, func(i int) { a.openDemo(assets.Demos()[i]) })
	})
}

// OpenDemo opens the main demo sheet in place of what is open.
func (a *App) OpenDemo() { a.openDemo(assets.Demos()[0]) }

// openDemo opens a demo without a path, so that it is never written over.
func (a *App) openDemo(demo assets.Demo) {
	doc, err := file.Read(strings.NewReader(demo.Text))
	if err != nil {
		a.showError("Not opened", err)
		return
	}
	a.replace(doc, "")
}

// save writes the file under its name, or asks for one; then runs then, which
// may be nil, where the file was written.
func (a *App) save(then func()) {
	if a.path == "" || !a.ownAgain() {
		a.saveAs(then)
		return
	}
	a.write(a.path, then)
}

// sheetTypes is the one type of a sheet.
var sheetTypes = []fileType{{"Sheet (*" + file.Extension + ")", file.Extension}}

// saveAs asks for a name and writes the file.
func (a *App) saveAs(then func()) {
	word := ""
	if a.held.reading {
		word = " copy" // the name itself is taken
	}
	a.askForName("Save", "Not saved", a.nameLike("building", word, file.Extension), sheetTypes, func(path string) {
		full := withExtension(path)
		a.unlessThere(full, full == path, func() { a.write(full, then) })
	})
}

// nameLike suggests a name for a file: that of the open one with a word after it,
// or else another.
func (a *App) nameLike(otherwise, word, ending string) string {
	if a.path == "" {
		return otherwise + ending
	}
	base := unit.Visible(filepath.Base(a.path))
	return strings.TrimSuffix(base, filepath.Ext(base)) + word + ending
}

// withEnding hands a path on, with the ending where it has none; then it asks first where
// there is such a file, since nobody was asked about that name.
func (a *App) withEnding(path, ending string, use func(path string)) {
	full := path
	if filepath.Ext(path) == "" {
		full += ending
	}
	a.unlessThere(full, full == path, func() { use(full) })
}

// withExtension adds the ending where it is missing.
func withExtension(path string) string {
	if filepath.Ext(path) == file.Extension {
		return path
	}
	return path + file.Extension
}

// close ends the program, after a question where there is something to save.
func (a *App) close() {
	a.unlessUnsaved(func() {
		a.prefs.setSize(a.window.Canvas().Size())
		a.copy.end()
		a.held.lock.Release()
		a.window.SetCloseIntercept(nil)
		a.window.Close()
	})
}
