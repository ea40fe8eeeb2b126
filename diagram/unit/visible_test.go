package unit_test

import (
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
