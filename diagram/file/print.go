package file

import (
	"maps"
	"slices"

	"github.com/goccy/go-json"
)

// recordDepth is how deep the members of a record stand. Down to there each
// member has a line of its own, so that a change of one field is a change of
// one line; deeper objects and lists stand on one line where they hold no other.
const recordDepth = 3

// sorted gives the objects in a decoded value the order of their names.
func sorted(value any) any {
	switch v := value.(type) {
	case map[string]any:
		out := make(object, 0, len(v))
		for _, name := range slices.Sorted(maps.Keys(v)) {
			out = append(out, member{name, sorted(v[name])})
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, item := range v {
			out[i] = sorted(item)
		}
		return out
	}
	return value
}

func isContainer(value any) bool {
	switch value.(type) {
	case object, []any:
		return true
	}
	return false
}

// broken reports whether each member of the value has a line of its own.
func broken(value any, depth int) bool {
	switch v := value.(type) {
	case object:
		return len(v) > 0 && (depth < recordDepth || slices.ContainsFunc(v, func(m member) bool { return isContainer(m.value) }))
	case []any:
		return len(v) > 0 && (depth < recordDepth || slices.ContainsFunc(v, isContainer))
	}
	return false
}

// appendValue prints the value at the depth with indentation.
func appendValue(out []byte, value any, depth int) []byte {
	if !broken(value, depth) {
		return appendInline(out, value, " ")
	}
	inner := depth + 1
	switch v := value.(type) {
	case object:
		out = append(out, '{')
		for i, m := range v {
			out = appendBreak(out, i > 0, inner)
			out = append(appendText(out, m.name), ": "...)
			out = appendValue(out, m.value, inner)
		}
		out = append(appendBreak(out, false, depth), '}')
	case []any:
		out = append(out, '[')
		for i, item := range v {
			out = appendBreak(out, i > 0, inner)
			out = appendValue(out, item, inner)
		}
		out = append(appendBreak(out, false, depth), ']')
	}
	return out
}

func appendBreak(out []byte, comma bool, depth int) []byte {
	if comma {
		out = append(out, ',')
	}
	out = append(out, '\n')
	for range depth {
		out = append(out, "  "...)
	}
	return out
}

// appendCompact prints the value without any space.
func appendCompact(out []byte, value any) []byte { return appendInline(out, value, "") }

// appendInline prints the value on one line, with the gap after each colon
// and comma.
func appendInline(out []byte, value any, gap string) []byte {
	switch v := value.(type) {
	case object:
		out = append(out, '{')
		for i, m := range v {
			out = appendComma(out, i > 0, gap)
			out = append(append(appendText(out, m.name), ':'), gap...)
			out = appendInline(out, m.value, gap)
		}
		return append(out, '}')
	case []any:
		out = append(out, '[')
		for i, item := range v {
			out = appendComma(out, i > 0, gap)
			out = appendInline(out, item, gap)
		}
		return append(out, ']')
	case string:
		return appendText(out, v)
	case json.Number:
		return append(out, v...)
	case bool:
		if v {
			return append(out, "true"...)
		}
		return append(out, "false"...)
	}
	return append(out, "null"...)
}

func appendComma(out []byte, comma bool, gap string) []byte {
	if comma {
		return append(append(out, ','), gap...)
	}
	return out
}

// appendText prints a text in quotes. Most are names, which stand as they are.
// A string cannot fail to be encoded.
func appendText(out []byte, text string) []byte {
	if isPlain(text) {
		return append(append(append(out, '"'), text...), '"')
	}
	quoted, err := json.MarshalWithOption(text, json.DisableHTMLEscape())
	if err != nil {
		panic("file: a text was not encoded: " + err.Error())
	}
	return append(out, quoted...)
}

// isPlain reports whether JSON has no escape for any character of the text.
func isPlain(text string) bool {
	for i := range len(text) {
		if c := text[i]; c < 0x20 || c > 0x7E || c == '"' || c == '\\' {
			return false
		}
	}
	return true
}
