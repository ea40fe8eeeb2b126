package library

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"clampline/diagram"
	"clampline/diagram/file"
)

// Own is the user's library. The zero value is empty. Whatever it is told, it
// stays one that can be saved and read again, and no entry of it has the id of
// another or takes that of one that comes with the program unless its file did.
type Own struct {
	entries []Entry
	extra   string // of its file
	warning string // about its file
}

// LoadOwn returns the user's library at the path; where there is no file, it is
// empty.
func LoadOwn(path string) (*Own, error) {
	kinds, err := file.LoadLibrary(path)
	if err != nil {
		return nil, err
	}
	return &Own{entries(kinds, true), kinds.Extra, kinds.Warning}, nil
}

// Warning says what is doubtful about the file that the library was loaded
// from, or nothing.
func (o *Own) Warning() string { return o.warning }

// Save writes the library to the path as the function Save does, with what its
// file held for other programs.
func (o *Own) Save(path string) error {
	return file.SaveLibrary(path, &file.Library{Protectors: protectors(o.entries), Extra: o.extra})
}

// Entries returns the entries, as they are listed. The slice is the caller's.
func (o *Own) Entries() []Entry { return slices.Clone(o.entries) }

// Add appends the protector, which may stand on a sheet, under a fresh id and
// returns its entry. A protector that no document would take is refused, with a
// *diagram.InvalidError.
func (o *Own) Add(p diagram.Protector) (Entry, error) {
	p = anywhere(p)
	p.ID = o.freshID()
	if err := file.CheckLibrary([]diagram.Protector{p}); err != nil {
		return Entry{}, err
	}
	e := Entry{p, true}
	o.entries = append(o.entries, e)
	return e, nil
}

// Replace puts the protector in the place of the entry with its id. It refuses
// one that is not in the library, and as Add does.
func (o *Own) Replace(p diagram.Protector) error {
	at := o.find(p.ID)
	if at < 0 {
		return fmt.Errorf("entry %s: it is not in your library; add it instead", p.ID)
	}
	p = anywhere(p)
	if err := file.CheckLibrary([]diagram.Protector{p}); err != nil {
		return err
	}
	o.entries[at].Protector = p
	return nil
}

// Remove takes the entry with the id away, and reports whether there was one.
func (o *Own) Remove(id diagram.ID) bool {
	at := o.find(id)
	if at < 0 {
		return false
	}
	o.entries = slices.Delete(o.entries, at, at+1)
	return true
}

// Conflict is an entry that could not be imported: another one has its id.
type Conflict struct {
	Mine, Theirs Entry // Mine may be one that comes with the program
}

// Imported is what became of the entries of another library.
type Imported struct {
	Added  []Entry
	Same   []Entry    // that were there already, alike in everything
	Differ []Conflict // that were left out; Replace takes theirs, Add keeps both
}

// Import adds those entries of which no other has the id, and overwrites
// nothing. Where one could not stand in a library it adds none of them.
func (o *Own) Import(from []Entry) (Imported, error) {
	var out Imported
	if err := file.CheckLibrary(protectors(from)); err != nil {
		return out, err
	}
	builtIn := BuiltIn()
	for _, theirs := range from {
		theirs = Entry{anywhere(theirs.Protector), true}
		switch mine, taken := o.holder(theirs.Protector.ID, builtIn); {
		case !taken:
			o.entries = append(o.entries, theirs)
			out.Added = append(out.Added, theirs)
		case mine.Protector == theirs.Protector:
			out.Same = append(out.Same, mine)
		default:
			out.Differ = append(out.Differ, Conflict{mine, theirs})
		}
	}
	return out, nil
}

// holder returns the entry that has the id, the user's own first.
func (o *Own) holder(id diagram.ID, builtIn []Entry) (Entry, bool) {
	for _, list := range [][]Entry{o.entries, builtIn} {
		if at := find(list, id); at >= 0 {
			return list[at], true
		}
	}
	return Entry{}, false
}

func (o *Own) find(id diagram.ID) int { return find(o.entries, id) }

func find(list []Entry, id diagram.ID) int {
	return slices.IndexFunc(list, func(e Entry) bool { return e.Protector.ID == id })
}

// ownStem begins the ids that Add gives.
const ownStem = "own-"

// freshID counts on from the highest number that an id has.
func (o *Own) freshID() diagram.ID {
	highest := 0
	for _, e := range o.entries {
		digits, ok := strings.CutPrefix(string(e.Protector.ID), ownStem)
		if number, err := strconv.Atoi(digits); ok && err == nil && number < 1<<30 {
			highest = max(highest, number)
		}
	}
	return diagram.ID(ownStem + strconv.Itoa(highest+1))
}
