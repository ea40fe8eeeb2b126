package app

import (
	"os"
	"strings"

	"fyne.io/fyne/v2"

	"clampline/diagram"
	"clampline/diagram/file"
)

// notOpened says why the file was not opened, and offers its backup where there
// is one.
func (a *App) notOpened(path string, err error) {
	replies := []reply{closing()}
	if backup, err := backupOf(path); err == nil {
		replies = append(replies, reply{"Open the backup", mainReply, func() { a.restoreBackup(path, backup) }})
	}
	text := reason(err, "open "+path+": ")
	q := &question{app: a}
	q.show("Not opened", paragraph(path+"\n\n"+sentence(text)), fyne.Size{}, replies...)
}

// backupOf returns the sheet in the backup of the path, which must be one that
// can be opened.
func backupOf(path string) (*diagram.Document, error) {
	if _, err := os.Stat(path); err != nil {
		return nil, err // the file was moved away, and its backup is no longer its own
	}
	return file.Load(path + file.BackupExtension)
}

// restoreBackup opens the backup under the name of its sheet, not saved.
func (a *App) restoreBackup(path string, doc *diagram.Document) {
	a.replace(doc, path)
	a.editor.MarkUnsaved()
	a.refresh()
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
