package library

import (
	"clampline/diagram/file"
	"io"
)

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

// Save writes a file of the entries to the path and keeps what stood there in a
// backup beside it, as file.Save does. It makes the folder where there is none.
func Save(path string, all []Entry) error {
	return file.SaveLibrary(path, &file.Library{Protectors: protectors(all)})
}
