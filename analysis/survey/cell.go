package survey

import (
	"errors"
	"math"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// unread says why a cell cannot be taken.
type unread struct{ what, remedy string }

// Error says what is wrong and how to mend it.
func (u unread) Error() string { return u.what + "; " + u.remedy }

// reason returns an error as what is wrong and how to mend it, or as what to
// write and what stands there instead.
func reason(err error) unread {
	var own unread
	var must unit.Must
	switch {
	case errors.As(err, &own):
		return own
	case errors.As(err, &must):
		return unread{must.Demand(), must.Instead()}
	}
	var problem diagram.Problem
	if errors.As(err, &problem) {
		return unread{problem.What, problem.Remedy}
	}
	return unread{err.Error(), "correct the cell"}
}

// longestQuote is how many characters of a cell a message repeats.
const longestQuote = 60

func quoted(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if utf8.RuneCountInString(text) > longestQuote {
		text = string([]rune(text)[:longestQuote]) + "…"
	}
	return "“" + text + "”"
}

// habits is how a table is written: its units, and what separates its cells,
// which says something about its numbers.
type habits struct {
	convention unit.Convention
	separator  rune
}

// grouping finds a number whose comma or point may stand before decimals or set
// thousands apart.
var grouping = regexp.MustCompile(`^[+-]?\s*([1-9]\d{0,2})([.,])(\d{3})(?:\D|$)`)

// quantity reads a number with a unit. In a table with commas between its cells
// a comma in a number sets thousands apart where it can; in any other it is more
// often a decimal comma, and where both would make sense nothing is guessed.
func (h habits) quantity(text string, d unit.Dimension) (float64, error) {
	if h.separator != ',' && strings.Count(text, ".")+strings.Count(text, ",") == 1 {
		if found := grouping.FindStringSubmatch(text); found != nil {
			return 0, ambiguous(text, found[1], found[3])
		}
	}
	v, err := unit.Parse(text, d, h.convention)
	switch {
	case err != nil:
		return v, unit.Must{Wanted: unit.Wanted(d, h.convention), Such: unit.Such(d, h.convention), Typed: text}
	case v < 0:
		return v, unit.Must{Wanted: "0 or more", Such: unit.Such(d, h.convention), Typed: text}
	}
	return v, nil
}

// ambiguous says what a number with three digits after its comma may be.
func ambiguous(text, before, after string) unread {
	share := before + "." + after + "0" // three digits would be as doubtful again
	if short := strings.TrimRight(after, "0"); len(short) < len(after) {
		share = strings.TrimSuffix(before+"."+short, ".")
	}
	return unread{"must be " + before + after + " or " + share, quoted(text) + " may be either"}
}

// closeTo reports whether two quantities differ by no more than rounding does.
func closeTo(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Abs(b) }

// yesNo reads a yes or a no.
func yesNo(text string) (bool, error) {
	switch folded(text) {
	case "yes", "y", "true", "1", "x", "✓", "✔", "☑", "present", "ja", "oui", "sí", "si":
		return true, nil
	case "no", "n", "false", "0", "☐", "none", "not", "absent", "notpresent", "nein", "non":
		return false, nil
	}
	return false, unit.Must{Wanted: "yes or no", Typed: text}
}

// isDash reports whether a cell is a lone dash, which clears a value.
func isDash(text string) bool {
	r, size := utf8.DecodeRuneInString(text)
	return size > 0 && size == len(text) && (unicode.Is(unicode.Pd, r) || r == '−')
}

// oneLine returns a text without line ends and control characters.
func oneLine(text string) string { return strings.Join(strings.Fields(printable(text)), " ") }

// printable returns a text of several lines without other control characters.
func printable(text string) string {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "\ufffd")))
}
