package app

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"clampline/diagram"
	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// notOpened says why the file was not opened, and offers its backup where there
// is one.
func (a *App) notOpened(path string, err error) {
	text := reason(err, "open "+path+": ")
	replies := []reply{closing()}
	if backup, name, err := backupOf(path); err == nil {
		replies = append(replies, reply{"Open the backup", mainReply, func() { a.restoreBackup(path, backup) }})
		text += "\n\nThe newest one that can be opened is " + name + "."
	}
	q := &question{app: a}
	q.show("Not opened", paragraph(path+"\n\n"+unit.SentenceCase(text)), fyne.Size{}, replies...)
}

// backupOf returns the sheet in the newest backup of the path that can be
// opened and is as it was saved, and the name of that.
func backupOf(path string) (*diagram.Document, string, error) {
	if _, err := os.Stat(path); err != nil {
		return nil, "", err // the file was moved away, and its backups are no longer its own
	}
	for _, backup := range (disk.Disk{}).Backups(path) {
		if opened, err := file.Open(backup); err == nil && opened.Warning == "" {
			return opened.Document, filepath.Base(backup), nil
		}
	}
	return nil, "", fs.ErrNotExist
}

// restoreBackup opens the backup under the name of its sheet, not saved.
func (a *App) restoreBackup(path string, doc *diagram.Document) {
	stamp, err := disk.Disk{}.Stamp(path) // of the broken file, which may be written over
	if err != nil {
		a.showError("Not opened", err)
		return
	}
	a.hold(path, stamp, func(h holding) {
		a.replaceHeld(doc, path, h)
		a.editor.MarkUnsaved()
		a.refresh()
	})
}

// reason returns why something was not done, without what and where, which the
// dialog says already.
func reason(err error, prefix string) string {
	text := err.Error()
	for strings.HasPrefix(text, prefix) {
		text = strings.TrimPrefix(text, prefix)
	}
	return text
}
