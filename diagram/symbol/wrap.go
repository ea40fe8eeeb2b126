package symbol

import (
	"strings"
	"unicode"

	"clampline/diagram/draw"
)

// Wrap returns the text in lines no wider than width millimetres, set at the
// given size in millimetres. It breaks at line ends and at spaces that are not
// no-break ones; a word that is wider than a line is broken where it must be, but no
// line has less than one character, and an accent stays with its letter. Empty text
// has no lines.
func Wrap(text string, size float64, bold bool, width float64) []string {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	w := wrapper{size: size, bold: bold, width: width + 1e-9} // sums of widths are rounded
	for paragraph := range strings.SplitSeq(text, "\n") {
		before := len(w.lines)
		for word := range strings.FieldsFuncSeq(paragraph, parts) {
			w.word(word)
		}
		if w.line.Len() > 0 || len(w.lines) == before {
			w.flush()
		}
	}
	return w.lines
}

// parts reports whether a line may break at a space: not at one without a break.
func parts(r rune) bool { return unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f' }

type wrapper struct {
	size, width float64
	bold        bool
	lines       []string
	line        strings.Builder
	used        float64 // width of the line so far
}

func (w *wrapper) measure(text string) float64 { return draw.TextWidth(text, w.size, w.bold) }

func (w *wrapper) word(word string) {
	wide := w.measure(word)
	if w.line.Len() > 0 {
		if space := w.measure(" "); w.used+space+wide <= w.width {
			w.put(" ", space)
		} else {
			w.flush()
		}
	}
	if w.used+wide <= w.width {
		w.put(word, wide)
		return
	}
	for _, r := range word {
		letter := string(r)
		wide := w.measure(letter)
		if w.line.Len() > 0 && w.used+wide > w.width && !unicode.Is(unicode.Mn, r) {
			w.flush()
		}
		w.put(letter, wide)
	}
}

func (w *wrapper) put(text string, wide float64) {
	w.line.WriteString(text)
	w.used += wide
}

func (w *wrapper) flush() {
	w.lines = append(w.lines, w.line.String())
	w.line.Reset()
	w.used = 0
}
