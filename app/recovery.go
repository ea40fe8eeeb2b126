package app

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"time"

	"fyne.io/fyne/v2"

	"clampline/diagram/edit"
	"clampline/diagram/file"
)

// recoveryPeriod is how often a changed sheet is copied.
const recoveryPeriod = 3 * time.Second

// recovery is the copy that is kept of changes that are not saved. Each
// running program has a folder of its own, named after its process, so that
// two windows don't take each other's copies.
type recovery struct {
	keeper keeper
	folder string // empty keeps none
	copied copied // zero where there is no copy
	failed bool   // the last copy was not written
	halt   func()
}

// copied is the state of a sheet that was copied, or is being copied.
type copied struct {
	editor  *edit.Editor
	version uint64
	path    string // of the sheet
}

// forget removes the copy: what it held is saved or given up.
func (r *recovery) forget() {
	if r.copied.editor != nil {
		r.remove(r.copied.path)
	}
	r.copied = copied{}
}

func (r *recovery) remove(sheet string) {
	_ = file.RemoveRecovery(file.RecoveryPath(r.folder, sheet)) // a copy that stays is offered once more
	_ = os.Remove(r.folder)                                     // only where it is empty
}

// end keeps no more copies and leaves none behind.
func (r *recovery) end() {
	if r.halt != nil {
		r.halt()
		r.halt = nil
	}
	r.keeper.wait()
	r.forget()
}

// KeepRecovery begins to keep recovery copies and offers those that an earlier
// run left behind.
func (a *App) KeepRecovery() {
	if a.options.Recovery == "" || a.copy.folder != "" {
		return
	}
	a.copy.folder = filepath.Join(a.options.Recovery, ownFolder())
	a.offerRecovery()
	a.copy.halt = a.run.every(recoveryPeriod, func() { a.keepCopy(nil) })
}

// ownFolder is a name that no other process has, dead ones included.
func ownFolder() string {
	return strconv.Itoa(os.Getpid()) + "-" + strconv.FormatInt(time.Now().UnixNano(), 36)
}

// keepCopy writes a copy of the sheet where it changed since the last one, and
// then runs then, which may be nil.
func (a *App) keepCopy(then func()) {
	r := &a.copy
	now := copied{a.editor, a.editor.DocumentVersion(), a.path}
	if r.folder == "" || r.keeper.busy || a.editor.IsSaved() || now == r.copied && !r.failed {
		return
	}
	r.copied, r.failed = now, false
	doc, folder := a.editor.Document().Snapshot(), r.folder
	r.keeper.keep(
		func() error { return file.SaveRecovery(folder, now.path, doc) },
		func(err error) {
			switch {
			case r.copied != now: // saved or given up while it was being written
				r.remove(now.path)
			case err != nil:
				r.failed = true // the next tick tries again
			case then != nil:
				then()
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
		if !left(entry.Name()) {
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

// left reports whether the folder is that of a process that is no more. One
// with the number of this process was left by another that had it before.
func left(folder string) bool {
	number, _, _ := strings.Cut(folder, "-")
	pid, err := strconv.Atoi(number)
	return err == nil && (pid == os.Getpid() || !running(pid))
}

func (a *App) offer(copy file.Recovery) {
	what := "the new sheet"
	if copy.Original != "" {
		what = "the unsaved changes to " + filepath.Base(copy.Original) + " in " + filepath.Dir(copy.Original)
	}
	text := fmt.Sprintf("Clampline closed unexpectedly. Restore %s from %s?", what, clock(copy.Time, time.Now()))
	q := &question{app: a}
	q.show("Restore unsaved changes?", paragraph(text), fyne.Size{},
		reply{"Restore", mainReply, func() { a.unlessUnsaved(func() { a.restore(copy) }) }},
		reply{"Later", stayReply, nil},
		reply{"Delete the copy", dangerReply, func() { dropCopy(copy) }})
}

// clock returns the time of day, and the date where it is not today.
func clock(at, now time.Time) string {
	at, now = at.Local(), now.Local()
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return at.Format("15:04")
	}
	return at.Format("2006-01-02 15:04")
}

func dropCopy(copy file.Recovery) {
	_ = file.RemoveRecovery(copy.Path) // a copy that stays is offered once more
	_ = os.Remove(filepath.Dir(copy.Path))
}

// restore opens the copy under the name of its sheet, not saved. The copy goes
// only when this run has one of its own.
func (a *App) restore(copy file.Recovery) {
	doc, err := file.Load(copy.Path)
	if err != nil {
		a.tell("Not restored", copy.Path+"\n\n"+sentence(reason(err, "open "+copy.Path+": "))+"\n\nThe copy is still there.")
		return
	}
	a.replace(doc, copy.Original)
	a.editor.MarkUnsaved()
	a.refresh()
	a.keepCopy(func() { dropCopy(copy) })
}

// running reports whether a process with the number is alive.
func running(pid int) bool {
	process, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	if runtime.GOOS == "windows" {
		return true // there, only a living process is found
	}
	return process.Signal(syscall.Signal(0)) == nil
}
