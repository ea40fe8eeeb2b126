package app

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"syscall"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram/file"
)

// recoveryPeriod is how often a changed sheet is copied.
const recoveryPeriod = 3 * time.Second

// recovery is the copy that is kept of changes that are not saved. Each
// running program has a folder of its own, named after its process, so that
// two windows don't take each other's copies.
type recovery struct {
	keeper  keeper
	folder  string // empty keeps none
	sheet   string // path of the sheet that was copied
	version uint64 // of the document that was copied
	exists  bool
	halt    chan struct{}
}

// forget removes the copy: what it held is saved or given up.
func (r *recovery) forget() {
	if r.exists {
		_ = file.RemoveRecovery(file.RecoveryPath(r.folder, r.sheet)) // a copy that stays is offered once more
		_ = os.Remove(r.folder)                                       // only where it is empty
	}
	r.exists, r.version = false, 0
}

func (r *recovery) stop() {
	if r.halt != nil {
		close(r.halt)
		r.halt = nil
	}
}

// KeepRecovery begins to keep recovery copies and offers those that an earlier
// run left behind.
func (a *App) KeepRecovery() {
	if a.options.Recovery == "" {
		return
	}
	a.copy.folder = filepath.Join(a.options.Recovery, strconv.Itoa(os.Getpid()))
	a.offerRecovery()
	a.copy.halt = make(chan struct{})
	halt := a.copy.halt
	a.run.background(func() {
		tick := time.NewTicker(recoveryPeriod)
		defer tick.Stop()
		for {
			select {
			case <-halt:
				return
			case <-tick.C:
				a.run.window(a.keepCopy)
			}
		}
	})
}

// keepCopy writes a copy of the sheet where it changed since the last one.
func (a *App) keepCopy() {
	version := a.editor.DocumentVersion()
	if a.copy.folder == "" || a.editor.IsSaved() || version == a.copy.version && a.copy.exists {
		return
	}
	doc, sheet, folder := a.editor.Document().Snapshot(), a.path, a.copy.folder
	a.copy.keeper.keep(
		func() error { return file.SaveRecovery(folder, sheet, doc) },
		func(err error) {
			if err != nil {
				return // the next tick tries again
			}
			a.copy.sheet, a.copy.version, a.copy.exists = sheet, version, true
			if a.editor.IsSaved() || a.path != sheet {
				a.copy.forget() // saved or replaced while the copy was being written
			}
		})
}

// offerRecovery asks about each copy that a program no longer running left.
func (a *App) offerRecovery() {
	folders, err := os.ReadDir(a.options.Recovery)
	if err != nil {
		return // there is none yet
	}
	for _, entry := range folders {
		if pid, err := strconv.Atoi(entry.Name()); err != nil || running(pid) {
			continue
		}
		found, err := file.Recoveries(filepath.Join(a.options.Recovery, entry.Name()))
		if err != nil {
			continue
		}
		for _, copy := range found {
			a.offer(copy)
		}
	}
}

func (a *App) offer(copy file.Recovery) {
	name := "a sheet that was never saved"
	if copy.Original != "" {
		name = copy.Original
	}
	text := widget.NewLabel(wrap(fmt.Sprintf("The program ended before the changes to %s were saved. A copy of %s is there.", name, copy.Time.Format("2006-01-02 15:04")), 70))
	d := dialog.NewCustomWithoutButtons("Restore unsaved changes?", container.NewPadded(text), a.window)
	discard := widget.NewButton("Delete the copy", func() { d.Hide(); dropCopy(copy) })
	discard.Importance = widget.DangerImportance
	restore := widget.NewButton("Restore", func() { d.Hide(); a.restore(copy) })
	restore.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{discard, widget.NewButton("Ask again later", d.Hide), restore})
	d.Show()
}

func dropCopy(copy file.Recovery) {
	_ = file.RemoveRecovery(copy.Path) // a copy that stays is offered once more
	_ = os.Remove(filepath.Dir(copy.Path))
}

// restore opens the copy under the name of its sheet, not saved.
func (a *App) restore(copy file.Recovery) {
	doc, err := file.Load(copy.Path)
	if err != nil {
		a.showError("The copy was not restored; it is still at "+copy.Path+".", err)
		return
	}
	a.replace(doc, copy.Original)
	a.editor.MarkUnsaved()
	a.keepCopy()
	dropCopy(copy)
	a.refresh()
}

// running reports whether a process with the number is alive.
func running(pid int) bool {
	if pid == os.Getpid() {
		return true
	}
	process, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	if runtime.GOOS == "windows" {
		return true // there, only a living process is found
	}
	return process.Signal(syscall.Signal(0)) == nil
}
