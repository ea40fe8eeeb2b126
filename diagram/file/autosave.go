package file

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/goccy/go-json"

	"clampline/diagram"
)

// Recovery is a copy of a sheet that was not saved when the program ended.
type Recovery struct {
	Path     string    // the copy
	Original string    // the absolute path of the sheet, or empty where it had none or it is not known
	Time     time.Time // when the copy was written
	Err      error     // why the copy cannot be read, or nil
}

const (
	recoveryPrefix    = "recovery-"
	originalExtension = ".json" // added to the name of a copy, for the note of where it belongs
)

// original is the note beside a copy.
type original struct {
	Original string `json:"original"`
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

// SaveRecovery writes a copy of the document, which belongs to the sheet at
// the path or was never saved, and makes the folder where there is none.
func SaveRecovery(folder, sheet string, doc *diagram.Document) error {
	path := RecoveryPath(folder, sheet)
	var text bytes.Buffer
	if err := Write(&text, doc); err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	note := original{}
	if sheet != "" {
		note.Original = absolute(sheet)
	}
	noteText, err := json.Marshal(note)
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return explain("save", path, err)
	}
	// The note comes first: a copy without it would belong to nothing.
	for _, one := range []struct {
		path string
		text io.WriterTo
	}{{path + originalExtension, bytes.NewReader(noteText)}, {path, &text}} {
		if err := replace(one.path, false, one.text.WriteTo); err != nil {
			return explain("save", one.path, err)
		}
	}
	return nil
}

// Recoveries returns every copy in the folder, the newest first, also those
// that cannot be read. A folder that does not exist holds none.
func Recoveries(folder string) ([]Recovery, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, explain("open", folder, err)
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

func recoveryAt(path string) Recovery {
	r := Recovery{Path: path}
	if info, err := os.Stat(path); err == nil {
		r.Time = info.ModTime()
	}
	_, r.Err = Load(path)
	var note original
	if text, err := os.ReadFile(path + originalExtension); err == nil && json.Unmarshal(text, &note) == nil {
		r.Original = note.Original
	}
	return r
}

// RemoveRecovery removes a copy and its note. A copy that is gone already is
// no error.
func RemoveRecovery(path string) error {
	for _, name := range []string{path, path + originalExtension} {
		if err := os.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("remove %s: %w", name, err)
		}
	}
	return nil
}
