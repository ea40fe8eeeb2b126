package symbol

import (
	"strings"
	"unicode/utf8"

	"clampline/diagram/draw"
)

// Wrap returns the text in lines no wider than width millimetres, set at the
// given size in millimetres. It breaks at spaces and line ends; a word that is
// wider than a line is broken where it must be. Empty text has no lines.
func Wrap(text string, size float64, bold bool, width float64) []string {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	w := wrapper{size: size, bold: bold, width: width}
	for paragraph := range strings.SplitSeq(text, "\n") {
		for word := range strings.FieldsSeq(paragraph) {
			w.word(word)
		}
		w.flush()
	}
	return w.lines
}

type wrapper struct {
	size, width float64
	bold        bool
	lines       []string
	line        string
}

// fits reports whether the text has room in a line. What is far too long is
// not measured: no letter is narrower than a tenth of its size or longer than
// four bytes.
func (w *wrapper) fits(text string) bool {
	if float64(len(text)) > 40*w.width/w.size+4 {
		return false
	}
	return draw.TextWidth(text, w.size, w.bold) <= w.width
}

func (w *wrapper) word(word string) {
	if w.line != "" && w.fits(w.line+" "+word) {
		w.line += " " + word
		return
	}
	if w.line != "" {
		w.flush()
	}
	for word != "" && !w.fits(word) {
		head := w.head(word)
		w.lines = append(w.lines, head)
		word = word[len(head):]
	}
	w.line = word
}

// head returns as many characters of the word as fit, at least one.
func (w *wrapper) head(word string) string {
	_, end := utf8.DecodeRuneInString(word)
	for i := range word {
		if i > end {
			if !w.fits(word[:i]) {
				break
			}
			end = i
		}
	}
	return word[:end]
}

func (w *wrapper) flush() {
	w.lines = append(w.lines, w.line)
	w.line = ""
}
