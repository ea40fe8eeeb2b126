package unit_test

import (
	"strings"
	"testing"

	"clampline/diagram/unit"
)

func TestVisible(t *testing.T) {
	for in, want := range map[string]string{
		"Hall":                         "Hall",
		"Büro 3 · 230 V µ Ω":           "Büro 3 · 230 V µ Ω",
		"לוח":                          "לוח",
		"\x1b[31mred\x1b[0m":           `\x1b[31mred\x1b[0m`,
		"\x1b]0;title\x07":             `\x1b]0;title\x07`,
		"a\nb\tc\r":                    `a\x0ab\x09c\x0d`,
		"\x00\x7f\u0085\u009b31m":      `\x00\u007f\u0085\u009b31m`,
		"fdp.\u202egnp":                `fdp.\u202egnp`,
		"\u2066x\u2069\u200f\u061c":    `\u2066x\u2069\u200f\u061c`,
		"a\u2028b\ufeff\U000e0041":     `a\u2028b\ufeff\ue0041`,
		"not UTF-8: \xff\xc3":          `not UTF-8: \xff\xc3`,
		"the character itself: \ufffd": "the character itself: \ufffd",
	} {
		if got := unit.Visible(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}

// The marks of direction of UAX #9, the controls, separators and tags from the first to
// the last of each row; what stands beside them is seen as it is.
func TestVisibleRows(t *testing.T) {
	for _, acts := range []rune{0x01, 0x1f, 0x7f, 0x9f, 0x61c, 0x200e, 0x200f, 0x2028, 0x2029, 0x202a, 0x202e, 0x2066, 0x2069, 0xfeff, 0xe0000, 0xe007f} {
		if got := unit.Visible(string(acts)); !strings.HasPrefix(got, `\`) {
			t.Errorf("%U: got %q", acts, got)
		}
	}
	for _, seen := range []rune{0x20, 0x7e, 0xa0, 0x61b, 0x61d, 0x200d, 0x2010, 0x2027, 0x202f, 0x2065, 0x206a, 0xfefe, 0xff01, 0xdffff, 0xe0100} {
		if got := unit.Visible(string(seen)); got != string(seen) {
			t.Errorf("%U: got %q", seen, got)
		}
	}
}

// What acts right behind the end of a line is shown, too, and a line may be the last.
func TestVisibleBehindTheEndOfALine(t *testing.T) {
	for in, want := range map[string]string{
		"a\r\n\x1bb": "a\r\n\\x1bb", "a\n\x1b": "a\n\\x1b", "a\t\x1b": "a\t\\x1b", "\x1b\r\n": "\\x1b\r\n", "\r\n\r\n\r": "\r\n\r\n\\x0d",
	} {
		if got := unit.VisibleLines(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}

func TestVisibleLines(t *testing.T) {
	for in, want := range map[string]string{
		"one\n\ttwo\r\nthree\n": "one\n\ttwo\r\nthree\n",
		"a\rb\n\x1b[2J\n":       "a\\x0db\n\\x1b[2J\n",
		"\x07":                  `\x07`,
	} {
		if got := unit.VisibleLines(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}
