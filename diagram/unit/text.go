package unit

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Words returns a sentence of the analysis in the words of the convention, as
// Terms has them, with each length in its units: one in others, such as the 10 m
// of a rule of IEC on a sheet in feet, has them beside it, "10 m (33 ft)". A length
// is a number, a no-break space and a unit, as Format writes it.
func Words(text string, c Convention) string { return lengths(Terms(text, c), c) }

var lengthPattern = regexp.MustCompile(`\d[\d.]*(?:\x{a0}\d{3})*\x{a0}(ft|in|mm|m|km)`)

// lengths sets the units of the convention beside lengths in others.
func lengths(text string, c Convention) string {
	if !strings.Contains(text, noBreakSpace) {
		return text
	}
	var out strings.Builder
	done := 0
	for _, at := range lengthPattern.FindAllStringSubmatchIndex(text, -1) {
		after := text[at[1]:]
		if beside := besideLength(text[at[0]:at[2]], text[at[2]:at[3]], c); beside != "" && isLength(after) {
			out.WriteString(text[done:at[1]] + " (" + beside + ")")
			done = at[1]
		}
	}
	return out.String() + text[done:]
}

// isLength reports whether what follows leaves it a length that stands alone: not
// m/µs or mm², nor one with another beside it.
func isLength(after string) bool {
	next, _ := utf8.DecodeRuneInString(after)
	return next != '/' && next != '²' && !unicode.IsLetter(next) && !strings.HasPrefix(after, " (")
}

// besides are the units of length of each convention, with those of the other.
var besides = []struct {
	of       Convention
	from, to measure
}{
	{NorthAmerican, foot, metre}, {NorthAmerican, inch, millimetre},
	{IEC, metre, foot}, {IEC, kilometre, foot}, {IEC, millimetre, inch},
}

// besideLength is a length in the units of the convention to two figures, or
// nothing where it is in those already.
func besideLength(number, name string, c Convention) string {
	v, err := strconv.ParseFloat(strings.ReplaceAll(number, noBreakSpace, ""), 64)
	if err != nil {
		return ""
	}
	for _, l := range besides {
		if l.from.name() == name && l.of != c {
			return l.to.of(grouped(decimal(rounded(v*l.from.worth/l.to.worth, 2))))
		}
	}
	return ""
}

// RoundLimit returns a limit of length, m, as a person would set it in the units of
// the convention: at most that, with a first figure or two that are round. 10 m is
// 30 ft in North America.
func RoundLimit(metres float64, c Convention) float64 {
	if c == IEC || metres <= 0 {
		return metres
	}
	feet := metres / foot.worth
	step := math.Pow(10, math.Floor(math.Log10(feet))) / 2
	return math.Floor(feet/step) * step * foot.worth
}

// SentenceCase begins a text with a capital letter.
func SentenceCase(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// Wrapped breaks a text between words into lines of at most width characters,
// unless a word is longer.
func Wrapped(text string, width int) string {
	var out strings.Builder
	used := 0
	for _, word := range strings.FieldsFunc(text, breaks) {
		length := utf8.RuneCountInString(word)
		switch {
		case used == 0:
		case used+1+length > width:
			out.WriteByte('\n')
			used = 0
		default:
			out.WriteByte(' ')
			used++
		}
		out.WriteString(word)
		used += length
	}
	return out.String()
}

// breaks reports whether a line may be broken there; at a no-break space it may
// not.
func breaks(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }
