package assets

import _ "embed"

//go:embed protectors.json
var protectors []byte

//go:embed library.schema.json
var librarySchema []byte

// Protectors returns the library of protectors that comes with the program: a
// file as diagram/file reads it, of kinds without a maker.
func Protectors() []byte { return protectors }

// LibrarySchema returns the JSON Schema (draft 2020-12) of the current version
// of a library of protectors, which is also its description for people.
func LibrarySchema() []byte { return librarySchema }
