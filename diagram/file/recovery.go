package file

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/goccy/go-json"

	"clampline/diagram"
	"clampline/diagram/disk"
)

// Recovery is a copy of a sheet that was not saved when the program ended, in
// one or more generations.
type Recovery struct {
	Path     string      // the newest generation; RemoveRecovery takes it
	Readable string      // the newest generation that is whole, or empty where none is
	Damaged  int         // generations newer than Readable, or all of them
	Original string      // the absolute path of the sheet, or empty where it had none or it is not known
	Base     *disk.Stamp // of the file that the changes were made to, without size and time; nil where it is not known
	Time     time.Time   // when the copy was written that can be read, or else the newest
	Err      error       // why no copy can be read, or nil
}

const (
	recoveryPrefix    = "recovery-"
	noBase            = "none"
	originalExtension = ".json" // added to the name of a copy, for the note of where it belongs
)

// original is the note beside a copy.
type original struct {
	Original string `json:"original"`
	Base     string `json:"base,omitempty"` // SHA-256 of the file in hexadecimal, or "none" where there was none
}

// RecoveryPath returns where in the folder the copy of a sheet is kept. The
// name depends on the path of the sheet alone; a sheet that was never saved
// has an empty path.
func RecoveryPath(folder, sheet string) string {
	name := "unsaved"
	if sheet != "" {
		sum := sha256.Sum256([]byte(absolute(sheet)))
		name = hex.EncodeToString(sum[:12])
	}
	return filepath.Join(folder, recoveryPrefix+name+Extension)
}

func absolute(path string) string {
	if full, err := filepath.Abs(path); err == nil {
		return full
	}
	return filepath.Clean(path)
}

// UsualGenerations is how many generations of a copy are kept where nothing else
// is asked for.
const UsualGenerations = 5

// Keeping says how a recovery copy is kept.
type Keeping struct {
	Disk        disk.Disk
	Folder      string      // of the copies; it is made where there is none
	Sheet       string      // path of the sheet, or empty where it was never saved
	Base        *disk.Stamp // of the file that the changes were made to, or nil
	Generations int         // that are kept, at least 1
}

// Save writes a copy of the document. The one before becomes the second
// generation, and so on.
func (k Keeping) Save(doc *diagram.Document) error {
	path := RecoveryPath(k.Folder, k.Sheet)
	text, err := encode(doc, true)
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	note, err := k.note()
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	if err := k.Disk.MakeFolder(k.Folder); err != nil {
		return disk.Explain("save", path, err)
	}
	// The note comes first: a copy without it would belong to nothing.
	if _, err := k.Disk.Replace(path+originalExtension, disk.Options{}, whole(note)); err != nil {
		return disk.Explain("save", path+originalExtension, err)
	}
	out, err := k.Disk.Replace(path, disk.Options{Backups: k.Generations - 1}, whole(text))
	if err != nil {
		return disk.Explain("save", path, err)
	}
	return errors.Join(out.Warnings...)
}

// note returns the text of the note beside the copy.
func (k Keeping) note() ([]byte, error) {
	var out original
	if k.Sheet != "" {
		out.Original = absolute(k.Sheet)
	}
	if k.Base != nil {
		if out.Base = noBase; k.Base.Exists {
			out.Base = hex.EncodeToString(k.Base.Sum[:])
		}
	}
	return json.Marshal(out)
}

// Recoveries returns every copy in the folder, the newest first, also those
// that cannot be read. A folder that does not exist holds none.
func Recoveries(folder string) ([]Recovery, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, disk.Explain("open", folder, err)
	}
	var out []Recovery
	for _, entry := range entries {
		if ok, _ := filepath.Match(recoveryPrefix+"*"+Extension, entry.Name()); ok {
			out = append(out, recoveryAt(filepath.Join(folder, entry.Name())))
		}
	}
	slices.SortStableFunc(out, func(a, b Recovery) int { return b.Time.Compare(a.Time) })
	return out, nil
}

// recoveryAt looks for the newest generation that is whole. One that can be read
// although its checksum does not fit is taken where no other is left.
func recoveryAt(path string) Recovery {
	r := Recovery{Path: path, Time: timeOf(path)}
	r.readNote()
	doubtful := ""
	for _, one := range append([]string{path}, disk.Disk{}.Backups(path)...) {
		opened, err := Open(one)
		switch {
		case err == nil && opened.Warning == "":
			r.Readable, r.Err, r.Time = one, nil, timeOf(one)
			return r
		case err == nil && doubtful == "":
			doubtful = one
		case r.Err == nil:
			r.Err = damaged(err)
		}
		r.Damaged++
	}
	if doubtful != "" {
		r.Readable, r.Err, r.Time = doubtful, nil, timeOf(doubtful)
	}
	return r
}

func timeOf(path string) time.Time {
	info, err := os.Stat(path)
	if err != nil {
		return time.Time{}
	}
	return info.ModTime()
}

func (r *Recovery) readNote() {
	var note original
	text, err := os.ReadFile(r.Path + originalExtension)
	if err != nil || json.Unmarshal(text, &note) != nil {
		return
	}
	r.Original = note.Original
	base, err := hex.DecodeString(note.Base)
	switch {
	case note.Base == noBase:
		r.Base = &disk.Stamp{}
	case err == nil && len(base) == sha256.Size:
		r.Base = &disk.Stamp{Exists: true, Sum: [sha256.Size]byte(base)}
	}
}

// damaged says what is wrong with a recovery copy: nobody can copy it again from
// elsewhere or mend it.
func damaged(err error) error {
	if one := (*Error)(nil); errors.As(err, &one) {
		bare := *one
		bare.ID, bare.Remedy = "", ""
		return fmt.Errorf("the copy is damaged: %w", &bare)
	}
	return err
}

// RemoveRecovery removes a copy with all its generations and its note. A copy
// that is gone already is no error.
func RemoveRecovery(path string) error {
	names := disk.Disk{}.Backups(path)
	slices.Reverse(names) // so that the newest is left where it is cut short
	for _, name := range append(names, path, path+originalExtension) {
		if err := os.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("remove %s: %w", name, err)
		}
	}
	return nil
}
