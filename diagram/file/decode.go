package file

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/goccy/go-json"
)

// decode checks the grammar of a text that holds an object, and returns it.
// Numbers stay text.
func decode(text []byte) (map[string]any, *Error) {
	if err := scan(text); err != nil {
		return nil, err
	}
	var top map[string]any
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	if err := decoder.Decode(&top); err != nil {
		return nil, refused(fmt.Sprintf("the text is not JSON: %v", err), remedyMend)
	}
	return top, nil
}

// decodeExtra returns the members that an object keeps for other programs. The
// depth is that in which the object stands in its file: 0 for the top one.
func decodeExtra(text string, depth int) (map[string]any, error) {
	checked, err := io.ReadAll(&guard{from: strings.NewReader(text), depth: depth})
	if err != nil {
		return nil, err
	}
	top, failure := sheets().decode(checked)
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
