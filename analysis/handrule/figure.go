package handrule

import (
	"math"
	"strconv"
)

// figure writes a number as it stands in a working: whole from a thousand up,
// to three decimals below, to three digits where it is tiny.
func figure(v float64) string {
	switch size := math.Abs(v); {
	case size >= 1000:
		return strconv.FormatFloat(v, 'f', 0, 64)
	case size >= 0.001 || size == 0:
		return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'g', 3, 64)
}

func figureIn(v float64, unit string) string { return figure(v) + " " + unit }
