package app

import (
	"os"
	"path/filepath"
	"strconv"
	"time"

	"clampline/diagram/disk"
	"clampline/diagram/edit"
	"clampline/diagram/file"
)

// usualPeriod is how often a changed sheet is copied at first, in seconds.
const usualPeriod = 3

// recovery is the copy that is kept of changes that are not saved. Each
// running program has a folder of its own, which it locks: that of a program
// that has ended in any way is locked no more, whatever numbers processes have.
type recovery struct {
	keeper  keeper
	folder  string // empty keeps none
	lock    *disk.Lock
	adopted map[string]*disk.Lock // folders that others have left, while they are asked about
	copied  copied                // zero where there is no copy
	failure string                // why the last copy was not written, or empty
	halt    func()
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
	r.copied, r.failure = copied{}, ""
}

func (r *recovery) remove(sheet string) {
	_ = file.RemoveRecovery(file.RecoveryPath(r.folder, sheet)) // a copy that stays is offered once more
	_ = os.Remove(r.folder)                                     // only where it is empty
	r.lock.Release()
	r.lock = nil
}

// own locks the folder before the first copy is in it.
func (r *recovery) own() {
	if !r.lock.Held() && (disk.Disk{}).MakeFolder(filepath.Dir(r.folder)) == nil {
		r.lock, _ = disk.TryLock(r.folder) // nobody else has the name
	}
}

// end keeps no more copies and leaves none behind.
func (r *recovery) end() {
	if r.halt != nil {
		r.halt()
		r.halt = nil
	}
	r.keeper.wait()
	r.forget()
	for _, lock := range r.adopted {
		lock.Release()
	}
}

// KeepRecovery begins to keep recovery copies and offers those that an earlier
// run left behind.
func (a *App) KeepRecovery() {
	if a.options.Recovery == "" || a.copy.folder != "" {
		return
	}
	a.copy.folder = filepath.Join(a.options.Recovery, ownFolder())
	a.offerRecovery()
	a.keepTime()
}

// keepTime copies the sheet as often as the settings say.
func (a *App) keepTime() {
	if a.copy.folder == "" {
		return
	}
	if a.copy.halt != nil {
		a.copy.halt()
	}
	a.copy.halt = a.run.every(a.prefs.period(), func() { a.keepCopy(nil) })
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
	if r.folder == "" || r.keeper.busy || a.editor.IsSaved() || now == r.copied && r.failure == "" {
		return
	}
	r.copied = now
	r.own()
	doc, base := a.editor.Document().Snapshot(), a.held.stamp
	keeping := file.Keeping{Folder: r.folder, Sheet: now.path, Base: &base, Generations: a.prefs.copies()}
	r.keeper.keep(
		func() error { return keeping.Save(doc) },
		func(err error) {
			if r.copied != now { // saved or given up while it was being written
				r.remove(now.path)
				return
			}
			a.copyFailed(err)
			if err == nil && then != nil {
				then()
			}
		})
}

// copyFailed says at once in the status line that no copy was written, and
// why; the next tick tries again.
func (a *App) copyFailed(err error) {
	before := a.copy.failure
	if a.copy.failure = ""; err != nil {
		a.copy.failure = disk.InWords(err).Error()
	}
	switch {
	case a.copy.failure == before:
	case err != nil:
		a.note("No recovery copy of your changes could be written: " + a.copy.failure + ". Save them.")
	default:
		a.note("Recovery copies are written again.")
	}
}

// clock returns the time of day, and the date where it is not today.
func clock(at, now time.Time) string {
	at, now = at.Local(), now.Local()
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return at.Format("15:04")
	}
	return at.Format("2006-01-02 15:04")
}
