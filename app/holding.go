package app

import (
	"errors"
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"

	"clampline/diagram"
	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// holding is what is known of the file that is open.
type holding struct {
	lock    *disk.Lock
	stamp   disk.Stamp  // of what was read from it or written to it last
	told    *disk.Stamp // of what another program has made of it since, as the person knows
	reading bool        // another window has it: it is not written to
	warned  string      // what did not go as it should at the last save
}

// hold locks the file and hands on what holds it. Where another window has it,
// the person may open it for reading.
func (a *App) hold(path string, stamp disk.Stamp, then func(holding)) {
	if a.isOpen(path) && a.held.lock.Held() {
		lock := a.held.lock
		a.held.lock = nil // it goes on with the same file
		then(holding{lock: lock, stamp: stamp})
		return
	}
	lock, err := disk.TryLock(path)
	if err == nil {
		then(holding{lock: lock, stamp: stamp})
		return
	}
	a.askToRead(path, err, func() { then(holding{stamp: stamp, reading: true}) })
}

// askToRead says who has the file.
func (a *App) askToRead(path string, err error, read func()) {
	who := "another window or program"
	if other := (*disk.HeldError)(nil); errors.As(err, &other) {
		who = other.Holder.String()
	}
	text := fmt.Sprintf("%s is open already: %s.\n\nHere it can be opened for reading. What you change is then saved under another name.", filepath.Base(path), who)
	q := &question{app: a}
	q.show("Open for reading?", paragraph(text), fyne.Size{},
		reply{"Cancel", stayReply, nil},
		reply{"Open for reading", mainReply, read})
}

// replaceHeld makes another document the one that is worked on, with what is
// known of its file.
func (a *App) replaceHeld(doc *diagram.Document, path string, h holding) {
	a.copy.forget()
	a.held.lock.Release()
	a.held = h
	a.workOn(doc, path)
}

// ownAgain takes the file that is open for reading where the other window has
// closed it, and reports whether it may be written to.
func (a *App) ownAgain() bool {
	if !a.held.reading {
		return true
	}
	lock, err := disk.TryLock(a.path)
	if err != nil {
		return false
	}
	a.held.lock, a.held.reading = lock, false
	return true
}

// isOpen reports whether the path leads to the file that is open.
func (a *App) isOpen(path string) bool {
	d := disk.Disk{}
	return a.path != "" && d.Target(path) == d.Target(a.path)
}

// write saves the sheet to the path, and then runs then, which may be nil.
func (a *App) write(path string, then func()) { a.writeTo(path, false, then) }

func (a *App) writeTo(path string, evenReadOnly bool, then func()) {
	o := file.Saving{Backups: a.prefs.backups(), EvenReadOnly: evenReadOnly}
	if a.isOpen(path) && a.ownAgain() {
		o.Expect, o.Lock = &a.held.stamp, a.held.lock
		a.writeWith(path, o, then)
		return
	}
	lock, err := disk.TryLock(path)
	if err != nil {
		a.notSaved(path, fmt.Errorf("save %s: %w", path, err))
		return
	}
	o.Lock = lock
	a.writeWith(path, o, then)
	if a.held.lock != lock {
		lock.Release()
	}
}

func (a *App) writeWith(path string, o file.Saving, then func()) {
	out, err := file.Save(path, a.editor.Document(), o)
	if errors.Is(err, disk.ErrUncertain) && path == a.path {
		a.held.stamp = out.Stamp
	}
	switch {
	case errors.Is(err, disk.ErrChanged):
		a.askChanged(then)
		return
	case errors.Is(err, disk.ErrReadOnly):
		a.askReadOnly(path, func() { a.writeTo(path, true, then) })
		return
	case err != nil:
		a.notSaved(path, err)
		return
	}
	a.saved(path, o.Lock, out)
	if then != nil {
		then()
	}
}

// saved notes that the sheet is in the file now.
func (a *App) saved(path string, lock *disk.Lock, out disk.Outcome) {
	if a.held.lock != lock {
		a.held.lock.Release()
	}
	before := a.held.warned
	a.held = holding{lock: lock, stamp: out.Stamp}
	if err := errors.Join(out.Warnings...); err != nil {
		a.held.warned = unit.SentenceCase(err.Error()) + "."
	}
	a.path = path
	a.editor.MarkSaved()
	a.copy.forget()
	a.remember(path)
	a.refresh()
	switch a.held.warned {
	case "":
	case before:
		a.note("Saved. " + a.held.warned) // in a dialog once is enough
	default:
		a.showMessage("Saved, but with a warning", path+" is saved.\n\n"+a.held.warned)
	}
}

func (a *App) notSaved(path string, err error) {
	a.showError("Not saved", fmt.Errorf("%s\n\n%s", path, unit.SentenceCase(reason(err, "save "+path+": "))))
}

// askReadOnly asks whether a file that is marked as read-only may be written
// over.
func (a *App) askReadOnly(path string, write func()) {
	q := &question{app: a}
	q.show("Write to a read-only file?", paragraph(path+" is marked as read-only. Write over it all the same?"), fyne.Size{},
		reply{"No", stayReply, nil},
		reply{"Save as …", plainReply, func() { a.saveAs(nil) }},
		reply{"Write over it", dangerReply, write})
}
