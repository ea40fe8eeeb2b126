package unit

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Visible returns the text with everything shown that would act on a terminal
// or turn the order of letters round instead of being seen, by its number: a
// control character as \x1b, a mark of direction of Unicode (UAX #9) or a
// separator of lines or paragraphs as \u202e, a byte that is no UTF-8 as \xff.
// Not every font has the pictures of control characters. A name of a person's
// choice is always shown so.
func Visible(text string) string {
	if isVisible(text) {
		return text
	}
	var out strings.Builder
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&out, `\x%02x`, text[i])
		case r < 0x20:
			fmt.Fprintf(&out, `\x%02x`, r)
		case acts(r):
			fmt.Fprintf(&out, `\u%04x`, r)
		default:
			out.WriteRune(r)
		}
		i += size
	}
	return out.String()
}

// VisibleLines is Visible for a text of several lines, which may be set in with
// tabulators.
func VisibleLines(text string) string {
	if isVisible(text) {
		return text
	}
	var out strings.Builder
	start := 0
	for i := 0; i < len(text); i++ {
		keep := 0
		switch {
		case text[i] == '\n' || text[i] == '\t':
			keep = 1
		case strings.HasPrefix(text[i:], "\r\n"):
			keep = 2
		default:
			continue
		}
		out.WriteString(Visible(text[start:i]))
		out.WriteString(text[i : i+keep])
		i += keep - 1
		start = i + 1
	}
	out.WriteString(Visible(text[start:]))
	return out.String()
}

func isVisible(text string) bool {
	for _, r := range text {
		if r < 0x20 || r == utf8.RuneError || acts(r) {
			return false
		}
	}
	return true
}

// acts reports whether the character, which is none below the space, does
// something instead of being seen.
func acts(r rune) bool {
	switch {
	case r >= 0x7F && r <= 0x9F: // delete, and the controls of ISO 6429
	case r == 0x061C, r == 0x200E, r == 0x200F: // marks of direction
	case r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069: // embeddings, overrides, isolates
	case r == 0x2028, r == 0x2029: // line and paragraph separator
	case r == 0xFEFF, r >= 0xE0000 && r <= 0xE007F: // no width at all; tags
	default:
		return false
	}
	return true
}
