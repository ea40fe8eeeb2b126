package file

import (
	"bytes"
	"clampline/diagram"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/goccy/go-json"
)

// family is a sort of file: sheets, or libraries of protectors. A file says in
// its member "format" which one it belongs to.
type family struct {
	format  string
	version int    // the newest one, which is written
	noun    string // "sheet"
	remedy  string // what to do with a file of another family
}

func sheets() family {
	return family{"clampline", Current, "sheet", "open a file with the ending " + Extension}
}

// opened is a file of which the grammar and the header have been checked.
type opened struct {
	top     map[string]any // without "format" and "version"
	version int
	text    []byte
}

// open reads a file of the family.
func (f family) open(r io.Reader) (*opened, error) {
	text, err := io.ReadAll(&guard{from: r})
	if err != nil {
		if one := (*Error)(nil); errors.As(err, &one) {
			return nil, Errors{one}
		}
		return nil, err
	}
	text = bytes.TrimPrefix(text, []byte("\uFEFF"))
	top, failure := f.decode(text)
	if failure != nil {
		return nil, Errors{failure}
	}
	version, failure := f.header(top)
	if failure != nil {
		failure.Line, failure.Column = position(text, locate(text, strings.Split(failure.Field, ".")))
		return nil, Errors{failure}
	}
	return &opened{top, version, text}, nil
}

// decode checks the text and returns its top object. Numbers stay text until
// it is known what they are for, so that those nobody knows survive exactly.
func (f family) decode(text []byte) (map[string]any, *Error) {
	if len(bytes.TrimSpace(text)) == 0 {
		return nil, refused("the file is empty", "choose another file")
	}
	if bytes.HasPrefix(text, []byte{0xFF, 0xFE}) || bytes.HasPrefix(text, []byte{0xFE, 0xFF}) {
		return nil, refused("the text is UTF-16", "save it as UTF-8").at(1, 1)
	}
	if c := bytes.TrimSpace(text)[0]; c != '{' {
		return nil, f.foreign("it does not begin with a brace")
	}
	return decode(text)
}

// header takes "format" and "version" from the top object and returns the
// version.
func (f family) header(top map[string]any) (int, *Error) {
	if top["format"] != f.format {
		return 0, f.foreign(fmt.Sprintf(`its member "format" is not %q`, f.format))
	}
	at := func(what, remedy string) (int, *Error) {
		return 0, &Error{Problem: diagram.Problem{Field: "version", What: what, Remedy: remedy}}
	}
	known := fmt.Sprintf(`write "version": %d`, f.version)
	version, ok := top["version"].(json.Number)
	if !ok {
		return at("the version is missing or not a number", known)
	}
	v, err := version.Float64()
	switch {
	case err != nil || v < 1 || v != math.Trunc(v):
		return at(fmt.Sprintf("%.20s is no version", version), known)
	case v > float64(f.version):
		return at(fmt.Sprintf("the file was written by a newer version of the program: format %.20s, and this program knows up to %d", version, f.version),
			"update the program, or save the "+f.noun+" for an older one there")
	}
	delete(top, "format")
	delete(top, "version")
	return int(v), nil
}

func (f family) foreign(why string) *Error {
	return refused("this is no Clampline "+f.noun+": "+why, f.remedy)
}
