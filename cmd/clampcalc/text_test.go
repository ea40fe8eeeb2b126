package main

import (
	"clampline/diagram/unit"
	"testing"
)

func TestWrapped(t *testing.T) {
	tests := []struct {
		name, text string
		width      int
		want       string
	}{
		{"nothing", "", 10, ""},
		{"fits", "one two", 7, "one two"},
		{"breaks between words", "one two three", 7, "one two\nthree"},
		{"a word longer than a line", "a transformer b", 5, "a\ntransformer\nb"},
		{"characters count, not bytes", "µµµ µµµ", 7, "µµµ µµµ"},
		{"a no-break space holds", "6\u00a0000 V", 5, "6\u00a0000\nV"},
	}
	for _, test := range tests {
		if got := unit.Wrapped(test.text, test.width); got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
	}
}
