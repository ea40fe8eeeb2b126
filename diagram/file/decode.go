package file

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/goccy/go-json"
)

// decode checks the text and returns its top object. Numbers stay text until
// it is known what they are for, so that those nobody knows survive exactly.
func decode(text []byte) (map[string]any, *Error) {
	if len(bytes.TrimSpace(text)) == 0 {
		return nil, &Error{What: "the file is empty", Remedy: "choose another file"}
	}
	if bytes.HasPrefix(text, []byte{0xFF, 0xFE}) || bytes.HasPrefix(text, []byte{0xFE, 0xFF}) {
		return nil, &Error{Line: 1, Column: 1, What: "the text is UTF-16", Remedy: "save it as UTF-8"}
	}
	if c := bytes.TrimSpace(text)[0]; c != '{' {
		return nil, foreign("it does not begin with a brace")
	}
	if err := scan(text); err != nil {
		return nil, err
	}
	var top map[string]any
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	if err := decoder.Decode(&top); err != nil {
		return nil, &Error{What: fmt.Sprintf("the text is not JSON: %v", err), Remedy: remedyMend}
	}
	return top, nil
}

// decodeExtra returns the members that a record keeps for other programs.
func decodeExtra(text string) (map[string]any, error) {
	checked, err := io.ReadAll(&guard{from: strings.NewReader(text), depth: recordDepth - 1})
	if err != nil {
		return nil, err
	}
	top, failure := decode(checked)
	if failure != nil {
		return nil, failure
	}
	return top, nil
}

// encodeExtra returns the members as a JSON object with sorted names, or
// nothing where there are none.
func encodeExtra(members map[string]any) string {
	if len(members) == 0 {
		return ""
	}
	return string(appendCompact(nil, sorted(members)))
}

// header takes "format" and "version" from the top object and returns the
// version.
func header(top map[string]any) (int, *Error) {
	if top["format"] != format {
		return 0, foreign(fmt.Sprintf(`its member "format" is not %q`, format))
	}
	at := func(what, remedy string) (int, *Error) {
		return 0, &Error{Path: "version", What: what, Remedy: remedy}
	}
	known := fmt.Sprintf(`write "version": %d`, Current)
	version, ok := top["version"].(json.Number)
	if !ok {
		return at("the version is missing or not a number", known)
	}
	v, err := version.Float64()
	switch {
	case err != nil || v < 1 || v != math.Trunc(v):
		return at(fmt.Sprintf("%.20s is no version", version), known)
	case v > Current:
		return at(fmt.Sprintf("the file was written by a newer version of the program: format %.20s, and this program knows up to %d", version, Current),
			"update the program, or save the sheet for an older one there")
	}
	delete(top, "format")
	delete(top, "version")
	return int(v), nil
}

func foreign(why string) *Error {
	return &Error{What: "this is no Clampline sheet: " + why, Remedy: "open a file with the ending .clampline"}
}
