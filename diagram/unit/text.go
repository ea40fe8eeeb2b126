package unit

import (
	"strings"
	"unicode"
)

// Words returns a text with the names of protection modes and of pairs of
// conductors in the words of the convention, as ModeWord has them: in IEC "L-G"
// becomes "L-PE", "N-G" becomes "N-PE" and "B-G" becomes "B-PE". Only whole words
// are changed; "SPD-L-G" stays.
func Words(text string, c Convention) string {
	if c != IEC || !strings.Contains(text, "-G") {
		return text
	}
	var out strings.Builder
	for rest := text; rest != ""; {
		other := strings.IndexFunc(rest, inWord)
		if other < 0 {
			other = len(rest)
		}
		out.WriteString(rest[:other])
		rest = rest[other:]
		end := strings.IndexFunc(rest, func(r rune) bool { return !inWord(r) })
		if end < 0 {
			end = len(rest)
		}
		out.WriteString(pairWord(rest[:end], c))
		rest = rest[end:]
	}
	return out.String()
}

// inWord reports whether the rune belongs to a word; a hyphen joins.
func inWord(r rune) bool { return r == '-' || r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) }

// pairWord is ModeWord for a pair of one conductor and earth, too.
func pairWord(word string, c Convention) string {
	switch word {
	case "A-G", "B-G", "C-G":
		return word[:1] + "-PE"
	}
	return ModeWord(word, c)
}
