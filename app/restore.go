package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"clampline/diagram"
	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// offerRecovery asks about each copy that a program no longer running left, and
// clears away what else it left.
func (a *App) offerRecovery() {
	disk.Disk{}.Clean(a.options.Recovery)
	folders, err := os.ReadDir(a.options.Recovery)
	if err != nil {
		return // there is none yet
	}
	for _, entry := range folders {
		folder := filepath.Join(a.options.Recovery, entry.Name())
		if !entry.IsDir() || !a.adopt(folder) {
			continue
		}
		disk.Disk{}.Clean(folder)
		found, err := file.Recoveries(folder)
		if err == nil && len(found) == 0 {
			a.clearFolder(folder)
		}
		for _, copy := range found {
			a.offer(copy)
		}
	}
}

// adopt locks a folder of recovery copies where no running program has it. Where
// nothing can be locked, the number of its process has to tell.
func (a *App) adopt(folder string) bool {
	lock, err := disk.TryLock(folder)
	if err != nil {
		return false
	}
	if !lock.Held() {
		number, _, _ := strings.Cut(filepath.Base(folder), "-")
		pid, err := strconv.Atoi(number)
		return err == nil && (pid == os.Getpid() || !disk.Running(pid))
	}
	if a.copy.adopted == nil {
		a.copy.adopted = map[string]*disk.Lock{}
	}
	a.copy.adopted[folder] = lock
	return true
}

// clearFolder removes a folder in which no copy is left.
func (a *App) clearFolder(folder string) {
	if os.Remove(folder) == nil { // only where it is empty
		a.copy.adopted[folder].Release()
		delete(a.copy.adopted, folder)
	}
}

// offer asks what is to become of a copy.
func (a *App) offer(copy file.Recovery) {
	drop := reply{"Delete the copy", dangerReply, func() { a.dropCopy(copy) }}
	later := reply{"Later", stayReply, nil}
	q := &question{app: a}
	if copy.Err != nil {
		text := fmt.Sprintf("Clampline closed unexpectedly. The copy of %s cannot be read: %v.", whatOf(copy), copy.Err)
		q.show("Changes that cannot be restored", paragraph(text), fyne.Size{}, later, drop)
		return
	}
	text := fmt.Sprintf("Clampline closed unexpectedly. Restore %s from %s?", whatOf(copy), clock(copy.Time, time.Now()))
	doubt := since(copy)
	restoring, comparing := mainReply, plainReply
	if doubt != "" {
		restoring, comparing = plainReply, mainReply
	}
	replies := []reply{{"Restore", restoring, func() { a.unlessUnsaved(func() { a.restore(copy) }) }}, later}
	if copy.Original != "" {
		replies = append(replies, reply{"Compare", comparing, func() { a.compare(copy) }})
	}
	q.show("Restore unsaved changes?", paragraph(text+fallenBack(copy)+doubt), fyne.Size{}, append(replies, drop)...)
}

func whatOf(copy file.Recovery) string {
	if copy.Original == "" {
		return "the new sheet"
	}
	return "the unsaved changes to " + filepath.Base(copy.Original) + " in " + filepath.Dir(copy.Original)
}

// fallenBack says that the newest copy was damaged.
func fallenBack(copy file.Recovery) string {
	switch {
	case copy.Damaged == 0:
		return ""
	case copy.Readable == copy.Path:
		return "\n\nThis copy is damaged, and no other is whole: look through what it holds."
	}
	return "\n\nThe newest copy is damaged; this is the one before it."
}

// since says what became of the file after the copy was made.
func since(copy file.Recovery) string {
	if copy.Original == "" {
		return ""
	}
	now, err := disk.Disk{}.Stamp(copy.Original)
	switch {
	case err != nil:
		return ""
	case !now.Exists:
		return "\n\nThe file itself is not there any more."
	case now.Time.After(copy.Time) && (copy.Base == nil || !now.Same(*copy.Base)):
		return fmt.Sprintf("\n\nThe copy is older than the file, which was changed at %s. Compare the two first.", clock(now.Time, time.Now()))
	case copy.Base != nil && !now.Same(*copy.Base):
		return "\n\nThe file was changed by another program since the copy was begun. Compare the two first."
	}
	return ""
}

// compare lists how the copy differs from the file, and then asks again.
func (a *App) compare(copy file.Recovery) {
	again := func() { a.offer(copy) }
	theirs, err := file.Load(copy.Original)
	var mine *diagram.Document
	if err == nil {
		mine, err = file.Load(copy.Readable)
	}
	var content fyne.CanvasObject
	if err != nil {
		content = paragraph("The two cannot be compared: " + reason(err, "open "+copy.Original+": "))
	} else {
		lines := file.Differences(theirs, mine)
		content = container.NewVBox(paragraph(differencesHead(len(lines), "the file", "the copy")), listOf(lines))
	}
	q := &question{app: a}
	q.show("The file and the copy", content, fyne.NewSize(640, 0), reply{"Back", stayReply, again})
}

func (a *App) dropCopy(copy file.Recovery) {
	_ = file.RemoveRecovery(copy.Path) // a copy that stays is offered once more
	a.clearFolder(filepath.Dir(copy.Path))
}

// restore opens the copy under the name of its sheet, not saved. The copy goes
// only when this run has one of its own.
func (a *App) restore(copy file.Recovery) {
	doc, err := file.Load(copy.Readable)
	if err != nil {
		a.showMessage("Not restored", copy.Readable+"\n\n"+unit.SentenceCase(reason(err, "open "+copy.Readable+": "))+"\n\nThe copy is still there.")
		return
	}
	restored := func(h holding) {
		a.replaceHeld(doc, copy.Original, h)
		a.editor.MarkUnsaved()
		a.refresh()
		a.keepCopy(func() { a.dropCopy(copy) })
	}
	if copy.Original == "" {
		restored(holding{})
		return
	}
	a.hold(copy.Original, baseOf(copy), restored)
}

// baseOf returns what a save of the copy may write over: what the changes were
// made to. Where that is not known it is a file that is older than the copy.
func baseOf(copy file.Recovery) disk.Stamp {
	if copy.Base != nil {
		return *copy.Base
	}
	now, err := disk.Disk{}.Stamp(copy.Original)
	if err != nil || now.Time.After(copy.Time) {
		return disk.Stamp{}
	}
	return now
}
