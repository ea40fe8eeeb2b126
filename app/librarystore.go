package app

import (
	"errors"
	"fmt"
	"slices"

	"clampline/diagram"
	"clampline/diagram/library"
)

// errNoLibrary says why nothing of the user's own can be kept.
var errNoLibrary = errors.New("there is no folder for the settings of programs; set HOME, or XDG_CONFIG_HOME, and start again")

// ownLibrary is the user's library and its file. Each change is kept at once.
// The file is read before it is written, so that what another window of the
// program has kept stays, and a file that cannot be read is never written over.
type ownLibrary struct {
	path   string // empty where there is no place for it
	own    *library.Own
	broken error // why the file cannot be read
}

// load reads the file; where it cannot be read, the library has nothing.
func (o *ownLibrary) load() {
	o.own, o.broken = &library.Own{}, nil
	if o.path == "" {
		return
	}
	own, err := library.LoadOwn(o.path)
	if err != nil {
		o.broken = err
		return
	}
	o.own = own
}

// change alters the library as it is in the file now, and keeps it. Where
// anything goes wrong all stays as it was.
func (o *ownLibrary) change(alter func(*library.Own) error) error {
	if o.path == "" {
		return errNoLibrary
	}
	own, err := library.LoadOwn(o.path)
	if err != nil {
		o.own, o.broken = &library.Own{}, err
		return err
	}
	if err := alter(own); err != nil {
		return err
	}
	if err := own.Save(o.path); err != nil {
		return err
	}
	o.own, o.broken = own, nil
	return nil
}

// entries returns the user's own entries.
func (o *ownLibrary) entries() []library.Entry { return o.own.Entries() }

// find returns the entry with the id, and whether there is one.
func (o *ownLibrary) find(id diagram.ID) (diagram.Protector, bool) {
	all := o.entries()
	at := slices.IndexFunc(all, func(e library.Entry) bool { return e.Protector.ID == id })
	if at < 0 {
		return diagram.Protector{}, false
	}
	return all[at].Protector, true
}

// add keeps the protector as a new entry.
func (o *ownLibrary) add(p diagram.Protector) (library.Entry, error) {
	var out library.Entry
	err := o.change(func(own *library.Own) (err error) {
		out, err = own.Add(p)
		return err
	})
	return out, err
}

// alter keeps what f makes of the entry with the id.
func (o *ownLibrary) alter(id diagram.ID, f func(*diagram.Protector)) error {
	return o.change(func(own *library.Own) error { return altered(own, id, f) })
}

// draft does what alter does without keeping it: the next alter of the same
// value does that.
func (o *ownLibrary) draft(id diagram.ID, f func(*diagram.Protector)) error {
	return altered(o.own, id, f)
}

// altered replaces the entry by what f makes of it.
func altered(own *library.Own, id diagram.ID, f func(*diagram.Protector)) error {
	for _, e := range own.Entries() {
		if e.Protector.ID == id {
			f(&e.Protector)
			return own.Replace(e.Protector)
		}
	}
	return fmt.Errorf("entry %s is not in your library any more: another window has removed it", id)
}

// remove takes the entry with the id away.
func (o *ownLibrary) remove(id diagram.ID) error {
	return o.change(func(own *library.Own) error {
		own.Remove(id)
		return nil
	})
}

// importFrom imports entries. Those that differ from one with the same id are left
// out, for settle.
func (o *ownLibrary) importFrom(from []library.Entry) (library.Imported, error) {
	var out library.Imported
	err := o.change(func(own *library.Own) (err error) {
		out, err = own.Import(from)
		return err
	})
	return out, err
}

// resolve takes the entries of the others: in place of the user's own, or beside
// them. One that comes with the program is never replaced.
func (o *ownLibrary) resolve(conflicts []library.Conflict, replace bool) error {
	return o.change(func(own *library.Own) error {
		for _, c := range conflicts {
			var err error
			if replace && c.Mine.Own {
				err = own.Replace(c.Theirs.Protector)
			} else {
				_, err = own.Add(c.Theirs.Protector)
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
}
