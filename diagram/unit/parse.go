package unit

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// What Parse returns is 0 or between these: no quantity of a building is
// outside, and arithmetic with what is inside does not overflow.
const (
	smallest = 1e-30
	largest  = 1e30

	inchesInFoot = 12

	largestCount = 1 << 53 // whole numbers up to here are exact

	// longest is more bytes than anyone types for a quantity. It keeps a text
	// pasted by mistake from taking time that grows with its square.
	longest = 256
)

var (
	errTooLarge = errors.New("the number is too large; write one below 1e30")
	errTooLong  = errors.New("the text is too long; write a number and its unit only")
	// errBareInches is of 32.808 ft40: a length typed behind another one.
	errBareInches = errors.New("inches without a mark are below 12 and follow whole feet; write in after them, like 2 ft 2 in")
	errTooSmall   = errors.New("the number is too small; write 0 or one above 1e-30")
)

// Parse returns the quantity that text says, in the unit of d. A number alone
// is in the unit that UnitName gives for d and c. The package comment lists what
// is taken. An error begins with the text and says what would be right.
func Parse(text string, d Dimension, c Convention) (float64, error) {
	if int(d) >= len(quantities) {
		return 0, fmt.Errorf("%s: there is no dimension %d", quoted(text), d)
	}
	if len(text) > longest {
		return 0, fmt.Errorf("%s: %v", quoted(text), errTooLong)
	}
	v, err := parse(normal(text), d, c)
	if err == nil {
		err = check(v, d)
	}
	if err != nil {
		return 0, fmt.Errorf("%s: %v", quoted(text), err)
	}
	return v + 0, nil // + 0 makes -0 a plain 0
}

func parse(text string, d Dimension, c Convention) (float64, error) {
	q := quantityOf(d, c)
	if d == Area {
		return q.area(text, c)
	}
	if text == "" {
		return 0, fmt.Errorf("the %s is missing; write a number%s", q.noun, q.suggestion())
	}
	sign, rest := cutSign(text)
	if q.sums {
		v, err := q.sum(rest)
		return sign * v, err
	}
	v, err := q.single(rest)
	return sign * v, err
}

func check(v float64, d Dimension) error {
	size := math.Abs(v)
	switch {
	case !(size <= largest):
		return errTooLarge
	case size != 0 && size < smallest:
		return errTooSmall
	case d == Count && (v != math.Trunc(v) || size > largestCount):
		return errors.New("a count is a whole number; write it without a fraction")
	}
	return nil
}

// single reads a number and at most one unit.
func (q quantity) single(text string) (float64, error) {
	number, rest, err := cutNumber(text)
	if err != nil {
		return 0, err
	}
	m, err := q.find(strings.ReplaceAll(rest, " ", ""))
	if err != nil {
		return 0, err
	}
	return number * m.worth, nil
}

// sum reads terms such as 2 ft 2 in, each in a smaller unit than the one before.
func (q quantity) sum(text string) (float64, error) {
	total, before := 0.0, 0.0
	var above measure
	for {
		number, rest, err := cutNumber(text)
		if err != nil {
			return 0, err
		}
		name, rest := cutName(rest)
		m, err := q.term(name, rest, above)
		if err != nil {
			return 0, err
		}
		if name == "" && above.worth != 0 && (before != math.Trunc(before) || number >= inchesInFoot) {
			return 0, errBareInches
		}
		total += number * m.worth
		if rest == "" {
			return total, nil
		}
		text, above, before = cutJoint(rest), m, number
	}
}

// term returns the measure of one term of a sum, which follows one in above.
func (q quantity) term(name, rest string, above measure) (measure, error) {
	if name == "" && (rest != "" || above.worth != 0) {
		if rest == "" && above.worth == foot.worth {
			return inch, nil // 5' 6
		}
		return measure{}, errors.New("a number has no unit; write one after each, like " + q.example())
	}
	m, err := q.find(name)
	if err == nil && above.worth != 0 && m.worth >= above.worth {
		err = fmt.Errorf("%s cannot follow %s; write the larger unit first, like %s", m.name(), above.name(), q.example())
	}
	return m, err
}

// cutName cuts the name of a unit off the front of text.
func cutName(text string) (name, rest string) {
	text = strings.TrimLeft(text, " ")
	end := len(text)
	for at := range len(text) {
		point := text[at] == '.' && at+1 < len(text) && isDigit(text[at+1])
		if point || isDigit(text[at]) || strings.IndexByte(" -,", text[at]) >= 0 {
			end = at
			break
		}
	}
	return text[:end], strings.TrimLeft(text[end:], " ")
}

// cutJoint takes what may stand between two terms off the front of text: 2'-2".
func cutJoint(text string) string {
	if text[0] == '-' || text[0] == ',' {
		return strings.TrimLeft(text[1:], " ")
	}
	return text
}

// symbols makes one of the several characters that look and mean the same.
// A raised 2 is marked, lest a number take it for a digit.
var symbols = strings.NewReplacer(
	"µ", "u", "μ", "u", "′", "'", "’", "'", "″", `"`, "”", `"`, "−", "-", "²", "^2", "\u2126", "Ω",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⁄", "/")

// normal returns text with single plain spaces and one sort of each symbol.
func normal(text string) string {
	return strings.Join(strings.Fields(symbols.Replace(strings.Join(strings.Fields(text), " "))), " ")
}

// quoted returns the text of a message's beginning, cut if it is long.
func quoted(text string) string {
	const limit = 40
	shown := 0
	for at := range text {
		if shown++; shown > limit {
			return strconv.Quote(text[:at] + "…")
		}
	}
	return strconv.Quote(text)
}
