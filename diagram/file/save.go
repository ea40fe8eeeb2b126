package file

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"clampline/diagram"
	"clampline/diagram/disk"
)

// Extension ends the name of every sheet.
const Extension = ".clampline"

// BackupExtension is added to the name of a sheet for the newest copy that a
// save keeps of what stood there before.
const BackupExtension = disk.BackupExtension

// UsualBackups is how many generations are kept where nothing else is asked for.
const UsualBackups = 3

// Opened is a sheet with what is known of its file.
type Opened struct {
	Document *diagram.Document
	Stamp    disk.Stamp // of what was read
	Warning  string     // what is doubtful about the file, in a sentence, or empty
}

// Load reads the sheet at the path. Where that is broken and a backup stands
// beside it, the error names the backup. What Open would warn of is not told.
func Load(path string) (*diagram.Document, error) {
	opened, err := Open(path)
	if err != nil {
		return nil, err
	}
	return opened.Document, nil
}

// Open reads the sheet at the path. Where that is broken and a backup stands
// beside it, the error names the backup.
func Open(path string) (*Opened, error) { return OpenOn(disk.Disk{}, path) }

// OpenOn is Open on the disk.
func OpenOn(d disk.Disk, path string) (*Opened, error) {
	var sealed seal
	doc, stamp, err := load(d, path, func(r io.Reader) (doc *diagram.Document, err error) {
		doc, sealed, err = readSealed(r)
		return doc, err
	})
	if err != nil {
		return nil, err
	}
	out := &Opened{Document: doc, Stamp: stamp}
	if sealed == sealBroken {
		out.Warning = brokenSeal(d, path)
	}
	return out, nil
}

// load reads the file at the path; what is no ordinary file is refused.
func load[T any](d disk.Disk, path string, read func(io.Reader) (*T, error)) (*T, disk.Stamp, error) {
	f, err := d.Open(path)
	if err != nil {
		return nil, disk.Stamp{}, disk.Explain("open", path, err)
	}
	reader := disk.NewStamper(f)
	content, err := read(reader)
	stamp, failure := reader.Finish()
	if err == nil {
		err = failure
	}
	if err == nil {
		return content, stamp, nil
	}
	if backups := d.Backups(path); len(backups) > 0 {
		return nil, stamp, fmt.Errorf("open %s: %w\nthe file before it is kept as %s", path, err, filepath.Base(backups[0]))
	}
	return nil, stamp, fmt.Errorf("open %s: %w", path, err)
}

// Saving says how a sheet is saved.
type Saving struct {
	Disk         disk.Disk
	Backups      int         // generations that are kept of what stood there before
	Expect       *disk.Stamp // what must stand there still, or nil
	EvenReadOnly bool        // also where the file is marked as read-only
	Lock         *disk.Lock  // that is held on the file; nil takes one for the time of the save
}

// Save writes the document to the path and keeps what stood there in backups
// beside it. At every moment there is a complete file at the path if there
// was one before; where Save fails, it is the old one. A symbolic link is
// followed; permissions, owner and group are kept where possible. The outcome says
// what did not go as it should although the sheet was saved.
func Save(path string, doc *diagram.Document, o Saving) (disk.Outcome, error) {
	text, err := encode(doc, true)
	if err != nil {
		return disk.Outcome{}, fmt.Errorf("save %s: %w", path, err)
	}
	if o.Lock == nil {
		lock, err := disk.TryLock(path)
		if err != nil {
			return disk.Outcome{}, fmt.Errorf("save %s: %w", path, err)
		}
		defer lock.Release()
	}
	out, err := o.Disk.Replace(path, disk.Options{Backups: o.Backups, Expect: o.Expect, EvenReadOnly: o.EvenReadOnly}, whole(text))
	if err != nil {
		return out, disk.Explain("save", path, err)
	}
	return out, nil
}

// whole writes the text.
func whole(text []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	}
}

// Export writes something that was made from a sheet, with the care that a
// sheet is saved with. It never takes the place of a sheet or of a backup of
// one.
func Export(path string, write func(io.Writer) error) error {
	return ExportOn(disk.Disk{}, path, write)
}

// ExportOn is Export on the disk.
func ExportOn(d disk.Disk, path string, write func(io.Writer) error) error {
	if isSheet(d.Target(path)) || isSheet(path) {
		return fmt.Errorf("save %s: %w", path, errSheet)
	}
	var text bytes.Buffer // first, so that what fails has touched nothing
	if err := write(&text); err != nil {
		return err
	}
	if _, err := d.Replace(path, disk.Options{}, whole(text.Bytes())); err != nil {
		return disk.Explain("save", path, err)
	}
	return nil
}

var errSheet = fmt.Errorf("this is the name of a sheet, which is never written over by something else; use another ending than %s", Extension)

// isSheet reports whether the name is that of a sheet or of a backup of one.
func isSheet(path string) bool {
	name, _, _ := strings.Cut(strings.ToLower(filepath.Base(path)), BackupExtension)
	return strings.HasSuffix(name, Extension)
}
