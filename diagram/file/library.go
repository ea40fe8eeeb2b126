package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"clampline/diagram"
	"clampline/diagram/disk"
)

// CurrentLibrary is the version of the format that WriteLibrary makes.
const CurrentLibrary = 1

const librarySchemaAddress = "https://clampline.example/schema/library-v1.json"

func libraries() family {
	return family{"clampline library", CurrentLibrary, "library of protectors", "choose a file that was saved as a library"}
}

// Library is a list of protectors to pick from, as a file holds it.
type Library struct {
	Protectors []diagram.Protector // as they are listed; Plan, Bus, Offset and Installed are zero
	Extra      string              // members of the file that this program does not know, as Part.Extra
	Warning    string              // what is doubtful about the file it was loaded from, in a sentence, or empty
}

// ReadLibrary returns the library that r holds. What is wrong with the text
// itself is an Errors; any other error comes from r. A record may be one of a
// sheet: where it stands there is left out.
func ReadLibrary(r io.Reader) (*Library, error) {
	library, _, err := readSealedLibrary(r)
	return library, err
}

// readSealedLibrary is ReadLibrary, with what the checksum says.
func readSealedLibrary(r io.Reader) (*Library, seal, error) {
	o, err := libraries().open(r)
	if err != nil {
		return nil, sealNone, err
	}
	sealed := takeSeal(o.top, o.text)
	members := &reader{object: o.top, homes: map[diagram.ID][]string{}}
	library := members.library()
	if err := members.errors(o.text); err != nil {
		return nil, sealed, err
	}
	if invalid := (*diagram.InvalidError)(nil); errors.As(stand(library.Protectors), &invalid) {
		members.invalid(invalid)
		return nil, sealed, members.errors(o.text)
	}
	return library, sealed, nil
}

func (r *reader) library() *Library {
	r.text("$schema", "", func(string) {})
	protectors := list(r, "protectors", func(f fields, v *diagram.Protector) {
		for _, place := range []string{"plan", "bus", "offset"} {
			r.take(place)
		}
		kindFields(f, v)
	})
	return &Library{Protectors: protectors, Extra: encodeExtra(r.object)}
}

// WriteLibrary writes the library in the current version of the format; equal
// libraries give equal bytes. Besides errors of w, it fails for protectors that
// ReadLibrary would refuse.
func WriteLibrary(w io.Writer, library *Library) error {
	text, err := encodeLibrary(library, false)
	if err != nil {
		return err
	}
	_, err = w.Write(text)
	return err
}

func encodeLibrary(library *Library, withChecksum bool) ([]byte, error) {
	if err := CheckLibrary(library.Protectors); err != nil {
		return nil, err
	}
	extra, err := extraOf(library.Extra, 0)
	if err != nil {
		return nil, fmt.Errorf("library: %w", err)
	}
	w := &writer{extra: extra}
	w.header(libraries(), librarySchemaAddress)
	w.checksum(withChecksum)
	putAll(w, "protectors", slices.Values(library.Protectors), kindFields)
	w.putExtra()
	if w.err != nil {
		return nil, w.err
	}
	return w.printed(libraries(), withChecksum)
}

// CheckLibrary says why the protectors cannot stand in a library together, in
// the words of a document that refuses them, or returns nil.
func CheckLibrary(protectors []diagram.Protector) error {
	seen := map[diagram.ID]bool{}
	for _, p := range protectors {
		if seen[p.ID] {
			return &diagram.InvalidError{Problems: []diagram.Problem{{
				ID: p.ID, Field: "id", What: "two protectors of the library bear this id", Remedy: "rename one of them",
			}}}
		}
		seen[p.ID] = true
	}
	return stand(protectors)
}

// stand lets a document check the protectors, on a board of its own.
func stand(protectors []diagram.Protector) error {
	plan, board := unused(protectors, "plan"), unused(protectors, "board")
	_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
		tx.Remove(diagram.FirstPlan)
		tx.SetPlan(diagram.Plan{ID: plan})
		tx.SetPart(diagram.Part{ID: board, Kind: diagram.Panel})
		for _, p := range protectors {
			p.Plan, p.Bus, p.Offset = plan, board, 0
			tx.SetProtector(p)
		}
		return nil
	})
	return err
}

// unused returns an id that begins with the stem and that none of the
// protectors has.
func unused(protectors []diagram.Protector, stem string) diagram.ID {
	for number := 1; ; number++ {
		id := diagram.ID(stem + "-" + strconv.Itoa(number))
		if !slices.ContainsFunc(protectors, func(p diagram.Protector) bool { return p.ID == id }) {
			return id
		}
	}
}

// LoadLibrary reads the library at the path; one that does not exist is empty.
// Where the file is broken and a backup stands beside it, the error names the
// backup.
func LoadLibrary(path string) (*Library, error) {
	var sealed seal
	library, _, err := load(disk.Disk{}, path, func(r io.Reader) (library *Library, err error) {
		library, sealed, err = readSealedLibrary(r)
		return library, err
	})
	if errors.Is(err, fs.ErrNotExist) {
		return &Library{}, nil
	}
	if err == nil && sealed == sealBroken {
		library.Warning = brokenSeal(disk.Disk{}, path)
	}
	return library, err
}

// SaveLibrary writes the library to the path as Save does a sheet, and makes
// the folder where there is none.
func SaveLibrary(path string, library *Library) error {
	text, err := encodeLibrary(library, true)
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	if isSheet(path) || isSheet(disk.Disk{}.Target(path)) {
		return fmt.Errorf("save %s: %w", path, errSheet)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return disk.Explain("save", path, err)
	}
	if _, err := (disk.Disk{}).Replace(path, disk.Options{Backups: 1}, whole(text)); err != nil {
		return disk.Explain("save", path, err)
	}
	return nil
}
