package library

import (
	"bytes"
	"io"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/file"
)

// Entry is one kind of protector to pick.
type Entry struct {
	// Protector has the id of the entry and the name of the kind. Plan, Bus and
	// Offset are zero.
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

// Read returns the entries of a user's file, as they are listed. What is wrong
// with the text is a file.Errors; any other error comes from r.
func Read(r io.Reader) ([]Entry, error) {
	kinds, err := file.ReadLibrary(r)
	if err != nil {
		return nil, err
	}
	return entries(kinds, true), nil
}

// Write writes a file of the entries, in their order. It fails for entries that
// Read would refuse, and for errors of w.
func Write(w io.Writer, all []Entry) error {
	return file.WriteLibrary(w, &file.Library{Protectors: protectors(all)})
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

// Save writes a file of the entries to the path and keeps what stood there in a
// backup beside it, as file.Save does. It makes the folder where there is none.
func Save(path string, all []Entry) error {
	return file.SaveLibrary(path, &file.Library{Protectors: protectors(all)})
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
	p.Plan, p.Bus, p.Offset = "", "", 0
	return p
}
