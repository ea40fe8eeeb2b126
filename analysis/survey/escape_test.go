package survey

import (
	"strings"
	"testing"
)

func TestEscape(t *testing.T) {
	for text, want := range map[string]string{
		"=2+2": "'=2+2", "+1": "'+1", "-": "'-", "@SUM(A1)": "'@SUM(A1)", "\tx": "'\tx", "＝2": "'＝2", "–": "'–",
		"=a\nb": "'=a\nb", "12-14": "'12-14", "1/2": "'1/2", "007": "'007", "31, 33, 35": "'31, 33, 35", "2E1": "'2E1", "Mar 1": "'Mar 1", "1-May": "'1-May",
		"1234567890123": "'1234567890123", "true": "'true", "'": "''", "'=": "''=",
		"": "", "LP-1": "LP-1", "12": "12", "Marina": "Marina", "March": "March", "left - right": "left - right", "480 V": "480 V", "panel-1": "panel-1", "18 in": "18 in",
	} {
		if got := escaped(text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
		if got := unescaped(escaped(text)); got != text {
			t.Errorf("%q comes back as %q", text, got)
		}
	}
}

// A mark that a person typed themselves stays.
func TestUnescapeTyped(t *testing.T) {
	for cell, want := range map[string]string{"'tis": "'tis", "'12-14": "12-14", "''tis": "'tis", "'": "'", "12-14": "12-14"} {
		if got := unescaped(cell); got != want {
			t.Errorf("%q: got %q, want %q", cell, got, want)
		}
	}
}

// Whatever a text is, no spreadsheet takes its cell for a formula, and it comes
// back.
func FuzzEscape(f *testing.F) {
	for _, s := range []string{"=1", "'=1", "''", "-", "1-2", "mar 1", "a\n=b", "\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		cell := escaped(s)
		if unescaped(cell) != s {
			t.Errorf("%q comes back as %q", s, unescaped(cell))
		}
		if cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r") {
			t.Errorf("%q begins a formula", cell)
		}
	})
}
