package main

import (
	"bytes"
	"io"
	"unicode/utf8"

	"clampline/diagram/unit"
)

// visible hands text on to a terminal with everything shown that would act on
// it: a name of a person's choice is text and no command. In JSON, what is
// shown so still stands for the same character.
type visible struct {
	to   io.Writer
	rest []byte // a character, or an end of line, of which the end is still to come
}

// Write implements io.Writer.
func (v *visible) Write(p []byte) (int, error) {
	text := append(v.rest, p...)
	whole := len(text) - unfinished(text)
	v.rest = bytes.Clone(text[whole:])
	if _, err := io.WriteString(v.to, unit.VisibleLines(string(text[:whole]))); err != nil {
		return 0, err
	}
	return len(p), nil
}

// end hands on what never came to its end.
func (v *visible) end() {
	_, _ = io.WriteString(v.to, unit.VisibleLines(string(v.rest)))
	v.rest = nil
}

// unfinished returns how many bytes at the end may belong to what comes next.
func unfinished(text []byte) int {
	if bytes.HasSuffix(text, []byte("\r")) {
		return 1
	}
	for n := 1; n < utf8.UTFMax && n <= len(text); n++ {
		if last := text[len(text)-n:]; utf8.RuneStart(last[0]) {
			if !utf8.FullRune(last) {
				return n
			}
			return 0
		}
	}
	return 0
}
