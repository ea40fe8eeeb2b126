package unit

import (
	"math"
	"strconv"
	"strings"
)

const (
	shownFigures = 4  // significant figures of Format
	exactFigures = 13 // significant figures of FormatExact: wrong by at most 5e-13

	noBreakSpace = "\u00a0"
)

// rounded returns x to so many significant figures.
func rounded(x float64, figures int) float64 {
	var buffer [32]byte
	text := strconv.AppendFloat(buffer[:0], x, 'e', figures-1, 64)
	y, err := strconv.ParseFloat(string(text), 64)
	if err != nil { // x is next to the largest float64 and rounds beyond it
		return x
	}
	return y
}

// significant returns how many significant figures x has within exactFigures.
func significant(x float64) int {
	var buffer [32]byte
	text := strconv.AppendFloat(buffer[:0], math.Abs(x), 'e', exactFigures-1, 64)
	mantissa, _, found := strings.Cut(string(text), "e")
	if !found { // NaN or infinite: never the friendliest
		return math.MaxInt
	}
	return max(1, len(strings.TrimRight(strings.Replace(mantissa, ".", "", 1), "0")))
}

// decimal writes x with no more digits than tell it from its neighbours, with
// an exponent only where it would be hard to read without.
func decimal(x float64) string {
	size := math.Abs(x)
	if size == 0 {
		return "0" // never "-0"
	}
	if size >= 1e-6 && size < 1e15 {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	text := strconv.FormatFloat(x, 'e', -1, 64)
	text = strings.Replace(text, "e+0", "e", 1)
	text = strings.Replace(text, "e-0", "e-", 1)
	return strings.Replace(text, "e+", "e", 1)
}

// grouped sets the thousands of a decimal apart.
func grouped(text string) string {
	if strings.Contains(text, "e") {
		return text
	}
	end := strings.IndexByte(text, '.')
	if end < 0 {
		end = len(text)
	}
	first := strings.IndexAny(text, "0123456789")
	if first < 0 {
		return text
	}
	for at := end - 3; at > first; at -= 3 {
		text = text[:at] + noBreakSpace + text[at:]
	}
	return text
}

// cents writes an amount of money with two decimals, or none if they are zero.
func cents(v float64) string {
	text := strings.TrimSuffix(strconv.FormatFloat(v, 'f', 2, 64), ".00")
	if text == "-0" {
		return "0"
	}
	return text
}

// wholeDigits returns the number of digits of x before the decimal point.
func wholeDigits(x float64) int {
	digits := 1
	for size := math.Abs(x); size >= 10 && digits < shownFigures; size /= 10 {
		digits++
	}
	return digits
}
