package survey

import (
	"regexp"
	"strings"
)

// guard is what stands before a text that a spreadsheet would not leave as it is:
// spreadsheets take what follows as text.
const guard = "'"

const months = `jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sep(?:t|tember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?`

// spoilt are texts that a spreadsheet makes something else of when it opens a
// table: formulas (a cell that begins with = + - @, which could also do harm),
// dates, and numbers. The formula signs, a tab and a line end at the beginning
// are those of the OWASP page on CSV injection, from memory; the others are
// common practice, no source.
var spoilt = regexp.MustCompile(`(?is)^(?:` + strings.Join([]string{
	`[=+\-@\t\r\n＝＋－＠].*`,
	`[–—−]`,                    // a lone dash clears a value
	`0\d+|\d{12,}`,             // loses its zeros, or becomes 1.2E+11
	`\d+[ .,/:\-][\d .,/:\-]*`, // 12-14 becomes a day in December
	`\d+e[+\-]?\d+`,
	`\d{1,2}[ .\-/]*(?:` + months + `)(?:[ .\-/]*\d{2,4})?|(?:` + months + `)[ .\-/]*\d{1,4}`,
	`true|false`,
}, "|") + `)$`)

func needsMark(text string) bool { return strings.HasPrefix(text, guard) || spoilt.MatchString(text) }

// escaped returns a text as it may stand in a cell.
func escaped(text string) string {
	if needsMark(text) {
		return guard + text
	}
	return text
}

// unescaped returns the text of a cell. A mark that a person typed before
// anything else stays.
func unescaped(cell string) string {
	if rest, found := strings.CutPrefix(cell, guard); found && needsMark(rest) {
		return rest
	}
	return cell
}
