package file

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"unicode/utf8"

	"github.com/goccy/go-json"
)

const (
	remedyCut  = "it was cut short; copy it again from where it came"
	remedyMend = "mend it in a text editor"
)

// scanner checks that a text is one JSON value by the grammar of RFC 8259, in
// UTF-8, without a name that occurs twice in an object. The decoder would
// take the last of two names in silence, and does not give places in a form
// that people can use.
type scanner struct {
	text  []byte
	at    int
	names []name // of the objects that are open, the innermost last
	found int    // start of the deepest value on the trail
	count int    // values so far
	err   *Error
}

type name struct {
	text []byte
	at   int
}

// scan returns the first error of the text, or nil. Its depth has been
// checked by guard.
func scan(text []byte) *Error {
	s := &scanner{text: text}
	if at := invalidUTF8(text); at >= 0 {
		s.fail(at, "the text is not UTF-8", "save it as UTF-8")
		return s.err
	}
	if s.value(nil); s.err != nil {
		return s.err
	}
	if s.space(); s.at < len(text) {
		s.unexpected("the end of the file")
	}
	return s.err
}

// locate returns the offset of the value that the trail leads to in a valid
// text, or of the last value on the way that is there.
func locate(text []byte, trail []string) int {
	s := &scanner{text: text}
	s.value(append([]string{}, trail...))
	return s.found
}

// position returns the line and the column of an offset, both from 1; a
// column is a character.
func position(text []byte, offset int) (line, column int) {
	before := text[:offset]
	return 1 + bytes.Count(before, []byte("\n")), 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
}

func invalidUTF8(text []byte) int {
	if utf8.Valid(text) {
		return -1
	}
	at := 0
	for {
		r, size := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && size <= 1 {
			return at
		}
		at += size
	}
}

// fail keeps the first error; it returns false, so that callers can pass it
// on.
func (s *scanner) fail(at int, what, remedy string) bool {
	if s.err == nil {
		s.err = refused(what, remedy).at(position(s.text, at))
	}
	return false
}

func (s *scanner) unexpected(wanted string) bool {
	if s.at >= len(s.text) {
		return s.fail(len(s.text), "the file ends where "+wanted+" belongs", remedyCut)
	}
	r, _ := utf8.DecodeRune(s.text[s.at:])
	return s.fail(s.at, fmt.Sprintf("%q stands where %s belongs", r, wanted), remedyMend)
}

func (s *scanner) peek() byte {
	if s.at < len(s.text) {
		return s.text[s.at]
	}
	return 0
}

func (s *scanner) space() {
	for s.at < len(s.text) {
		switch s.text[s.at] {
		case ' ', '\t', '\r', '\n':
			s.at++
		default:
			return
		}
	}
}

// value passes one value. The trail leads on from it to the value that is
// sought; it is nil for a value off the way.
func (s *scanner) value(trail []string) bool {
	s.space()
	if trail != nil {
		s.found = s.at
	}
	if s.count++; s.count > maxValues {
		return s.fail(s.at, fmt.Sprintf("the file holds more than %d values", maxValues), remedyForeign)
	}
	switch c := s.peek(); {
	case c == '{':
		return s.object(trail)
	case c == '[':
		return s.list(trail)
	case c == '"':
		return s.quoted()
	case c == '-' || isDigit(c):
		return s.number()
	}
	for _, word := range []string{"true", "false", "null"} {
		if bytes.HasPrefix(s.text[s.at:], []byte(word)) {
			s.at += len(word)
			return true
		}
	}
	return s.noNumber() && s.unexpected("a value")
}

// next returns the trail that leads on from a member or an item.
func next(trail []string, step string) []string {
	if len(trail) > 0 && trail[0] == step {
		return trail[1:]
	}
	return nil
}

func (s *scanner) object(trail []string) bool {
	base := len(s.names)
	s.at++
	if s.space(); s.peek() == '}' {
		s.at++
		return true
	}
	for {
		if s.space(); s.peek() != '"' {
			return s.unexpected("a name in double quotes")
		}
		start := s.at
		if !s.quoted() {
			return false
		}
		if len(s.names)-base == maxNames {
			return s.fail(start, fmt.Sprintf("an object holds more than %d members", maxNames), remedyForeign)
		}
		text := unquote(s.text[start:s.at])
		s.names = append(s.names, name{text, start})
		if s.space(); s.peek() != ':' {
			return s.unexpected("a colon")
		}
		s.at++
		if !s.value(next(trail, string(text))) {
			return false
		}
		if done, ok := s.separator('}', "a comma or a closing brace"); done || !ok {
			return ok && s.distinct(base)
		}
	}
}

func (s *scanner) list(trail []string) bool {
	s.at++
	if s.space(); s.peek() == ']' {
		s.at++
		return true
	}
	for index := 0; ; index++ {
		var onward []string
		if trail != nil {
			onward = next(trail, strconv.Itoa(index))
		}
		if !s.value(onward) {
			return false
		}
		if done, ok := s.separator(']', "a comma or a closing bracket"); done || !ok {
			return ok
		}
	}
}

// separator passes a comma or the end of an object or list.
func (s *scanner) separator(end byte, wanted string) (done, ok bool) {
	s.space()
	switch s.peek() {
	case end:
		s.at++
		return true, true
	case ',':
		s.at++
		return false, true
	}
	return false, s.unexpected(wanted)
}

// distinct checks and drops the names of the innermost object.
func (s *scanner) distinct(base int) bool {
	names := s.names[base:]
	s.names = s.names[:base]
	slices.SortStableFunc(names, func(a, b name) int { return bytes.Compare(a.text, b.text) })
	for i := 1; i < len(names); i++ {
		if bytes.Equal(names[i-1].text, names[i].text) {
			line, _ := position(s.text, names[i-1].at)
			return s.fail(names[i].at, fmt.Sprintf("the name %.80q stands twice in one object, first on line %d", names[i].text, line),
				"remove one of the two")
		}
	}
	return true
}

// quoted passes a text in quotes.
func (s *scanner) quoted() bool {
	start := s.at
	for s.at++; s.at < len(s.text); s.at++ {
		switch c := s.text[s.at]; {
		case c == '"':
			s.at++
			return true
		case c < 0x20:
			return s.fail(s.at, "a line break or control character stands inside a text", `close the quotes before it, or write it as an escape such as \n`)
		case c == '\\':
			if !s.escape() {
				return false
			}
		}
	}
	line, column := position(s.text, start)
	return s.fail(len(s.text), fmt.Sprintf("the file ends inside the text that begins on line %d, column %d", line, column), remedyCut)
}

// escape passes a backslash and all but the last byte of what it escapes.
func (s *scanner) escape() bool {
	s.at++
	switch c := s.peek(); {
	case c == 'u':
		for range 4 {
			if s.at++; !isHex(s.peek()) {
				return s.unexpected("a hexadecimal digit")
			}
		}
		return true
	case bytes.IndexByte([]byte(`"\/bfnrt`), c) >= 0:
		return true
	}
	return s.unexpected(`one of "\/bfnrtu after a backslash`)
}

// number passes a number; digits may not follow a leading zero.
func (s *scanner) number() bool {
	if s.peek() == '-' {
		s.at++
	}
	if s.peek() == '0' {
		s.at++
	} else if !s.noNumber() || !s.digits() {
		return false
	}
	if s.peek() == '.' {
		if s.at++; !s.digits() {
			return false
		}
	}
	if c := s.peek(); c == 'e' || c == 'E' {
		s.at++
		if c := s.peek(); c == '+' || c == '-' {
			s.at++
		}
		return s.digits()
	}
	return true
}

func (s *scanner) digits() bool {
	if !isDigit(s.peek()) {
		return s.unexpected("a digit")
	}
	for isDigit(s.peek()) {
		s.at++
	}
	return true
}

// noNumber fails for the words that other programs write for values that are
// no numbers.
func (s *scanner) noNumber() bool {
	for _, word := range []string{"nan", "inf"} {
		rest := s.text[s.at:]
		if len(rest) >= len(word) && bytes.EqualFold(rest[:len(word)], []byte(word)) {
			return s.fail(s.at, "JSON has no number that is not finite, such as NaN or Infinity", "remove the member: what is absent is not known")
		}
	}
	return true
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isHex(c byte) bool {
	return isDigit(c) || c >= 'a' && c <= 'f' || c >= 'A' && c <= 'F'
}

// unquote returns what a valid text in quotes stands for.
func unquote(quoted []byte) []byte {
	plain := quoted[1 : len(quoted)-1]
	if bytes.IndexByte(plain, '\\') < 0 {
		return plain
	}
	var out string
	if err := json.Unmarshal(quoted, &out); err != nil {
		return plain
	}
	return []byte(out)
}
