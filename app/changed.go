package app

import (
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// Returned is to be called when the person comes back to the window: it looks
// whether another program has changed the file meanwhile.
func (a *App) Returned() {
	if a.path == "" || a.isAsking() || (disk.Disk{}).Unchanged(a.path, a.held.stamp) {
		return
	}
	now, err := disk.Disk{}.Stamp(a.path)
	switch {
	case err != nil: // it is said when it is saved
	case now.Same(a.held.stamp):
		a.held.stamp = now // with another time
	case a.held.told != nil && now.Same(*a.held.told):
	case !now.Exists:
		a.held.told = &now
		a.editor.MarkUnsaved()
		a.note(filepath.Base(a.path) + " was moved or removed by another program. Saving writes it anew.")
	default:
		a.askChanged(nil)
	}
}

// askChanged says that another program has changed the file, and how; then,
// which may be nil, runs after the sheet was saved.
func (a *App) askChanged(then func()) {
	path := a.path
	opened, err := file.Open(path)
	now, stampErr := disk.Disk{}.Stamp(path)
	if stampErr == nil {
		a.held.told = &now
	}
	replies := []reply{{"Not now", stayReply, nil}}
	if err == nil {
		role := mainReply
		if !a.editor.IsSaved() {
			role = dangerReply // what was changed here is lost
		}
		replies = append(replies, reply{"Reload", role, func() { a.reload(path, opened) }})
	}
	replies = append(replies, reply{"Save as …", plainReply, func() { a.saveAs(then) }})
	if stampErr == nil && !a.held.reading {
		replies = append(replies, reply{"Overwrite", dangerReply, func() {
			// what the person was told of, and nothing newer, is written over
			a.writeWith(path, file.Saving{Backups: a.prefs.backups(), Expect: &now, Lock: a.held.lock}, then)
		}})
	}
	q := &question{app: a}
	q.show("Changed by another program", a.changedContent(path, opened, now, err), fyne.NewSize(640, 0), replies...)
}

func (a *App) changedContent(path string, opened *file.Opened, now disk.Stamp, err error) fyne.CanvasObject {
	text := filepath.Base(path) + " was changed by another program"
	if now.Exists {
		text += " at " + clock(now.Time, time.Now())
	}
	text += ", after it was opened or saved here"
	if err != nil {
		return paragraph(text + ". It cannot be read now:\n" + unit.SentenceCase(reason(err, "open "+path+": ")))
	}
	mine := ""
	if !a.editor.IsSaved() {
		mine = " You have changes here that are not saved."
	}
	lines := file.Differences(a.editor.Document(), opened.Document)
	return container.NewVBox(paragraph(text+"."+mine+"\n\n"+differencesHead(len(lines), "what is open here", "the file")), listOf(lines))
}

// differencesHead stands above a list of differences.
func differencesHead(n int, first, second string) string {
	switch n {
	case 0:
		return fmt.Sprintf("Nothing on the sheet differs between %s and %s.", first, second)
	case 1:
		return fmt.Sprintf("One thing differs; an arrow leads from %s to %s:", first, second)
	}
	return fmt.Sprintf("%d things differ; an arrow leads from %s to %s:", n, first, second)
}

// mostLines is how many differences are listed.
const mostLines = 200

// listOf shows lines, as high as a few of them.
func listOf(lines []string) fyne.CanvasObject {
	if len(lines) == 0 {
		return container.NewVBox()
	}
	if more := len(lines) - mostLines; more > 0 {
		lines = append(lines[:mostLines:mostLines], fmt.Sprintf("and %d more", more))
	}
	label := widget.NewLabel(strings.Join(lines, "\n"))
	label.Wrapping = fyne.TextWrapWord
	scroll := container.NewVScroll(label)
	scroll.SetMinSize(fyne.NewSize(600, float32(min(len(lines)+1, 8))*24))
	return scroll
}

// reload opens what the file holds now.
func (a *App) reload(path string, opened *file.Opened) {
	a.hold(path, opened.Stamp, func(h holding) {
		a.replaceHeld(opened.Document, path, h)
		a.doubt(path, opened)
		a.note("Reloaded from " + shorten(path))
	})
}

// doubt says what is doubtful about a file that was opened.
func (a *App) doubt(path string, opened *file.Opened) {
	if opened.Warning == "" {
		return
	}
	replies := []reply{{"Keep it open", stayReply, nil}}
	if backup, _, err := backupOf(path); err == nil {
		replies = append(replies, reply{"Open the backup", plainReply, func() { a.unlessUnsaved(func() { a.restoreBackup(path, backup) }) }})
	}
	q := &question{app: a}
	q.show("Not as it was saved", paragraph(path+"\n\n"+opened.Warning), fyne.Size{}, replies...)
}
