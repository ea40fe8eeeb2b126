package analysis

import (
	"math"
	"strconv"
	"strings"

	"clampline/diagram/unit"
)

// hard is the space that no line is broken at.
const hard = "\u00a0"

// Figure writes a number as it stands in a working: whole and grouped by
// thousands from a thousand up, to three decimals below, to three digits where
// it is tiny.
func Figure(v float64) string {
	switch size := math.Abs(v); {
	case size >= 1000:
		return grouped(strconv.FormatFloat(v, 'f', 0, 64))
	case size >= 0.001 || size == 0:
		return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'g', 3, 64)
}

// grouped sets thousands apart.
func grouped(digits string) string {
	for at := len(digits) - 3; at > 0 && digits[at-1] != '-'; at -= 3 {
		digits = digits[:at] + hard + digits[at:]
	}
	return digits
}

// LengthIn writes a length, m, in the units of the rules that count, so that
// unit.Words finds it in a sentence: "30 ft".
func LengthIn(metres float64, c unit.Convention) string {
	return strings.ReplaceAll(unit.Format(metres, unit.Length, c), " ", hard)
}

// FigureIn does the same with the unit after it.
func FigureIn(v float64, unit string) string { return Figure(v) + hard + unit }

// Significant returns a number of so many digits.
func Significant(v float64, digits int) float64 {
	out, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64) // of a text that it has written itself
	return out
}
