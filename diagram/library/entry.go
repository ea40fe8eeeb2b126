package library

import (
	"bytes"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/file"
)

// Entry is one kind of protector to pick.
type Entry struct {
	// Protector has the id of the entry and the name of the kind. Plan, Bus and
	// Offset are zero, and nothing is said of an installation.
	Protector diagram.Protector
	Own       bool // from the user's file
}

// BuiltIn returns the kinds that come with the program, as they are listed. The
// slice is the caller's.
func BuiltIn() []Entry {
	kinds, err := file.ReadLibrary(bytes.NewReader(assets.Protectors()))
	if err != nil {
		panic("library: the kinds that come with the program: " + err.Error())
	}
	return entries(kinds, false)
}

// Load returns the entries of the file at the path; one that does not exist has
// none.
func Load(path string) ([]Entry, error) {
	kinds, err := file.LoadLibrary(path)
	if err != nil {
		return nil, err
	}
	return entries(kinds, true), nil
}

func entries(kinds *file.Library, own bool) []Entry {
	out := make([]Entry, len(kinds.Protectors))
	for i, p := range kinds.Protectors {
		out[i] = Entry{p, own}
	}
	return out
}

func protectors(all []Entry) []diagram.Protector {
	out := make([]diagram.Protector, len(all))
	for i, e := range all {
		out[i] = anywhere(e.Protector)
	}
	return out
}

// anywhere returns the protector without its place.
func anywhere(p diagram.Protector) diagram.Protector {
	p.Plan, p.Bus, p.Offset, p.Installed = "", "", 0, diagram.Installed{}
	return p
}
