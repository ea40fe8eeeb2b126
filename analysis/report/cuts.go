package report

import (
	"math"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// cuts returns where a length is cut into a number of pieces, each at most usable long,
// both ends among them: where a cut crosses little, and as evenly as that allows.
func cuts(from, to, usable float64, count int, crossed func(float64) float64) []float64 {
	out := []float64{from}
	for left := float64(count - 1); left > 0; left-- {
		at := out[len(out)-1]
		even := (to - at) / (left + 1)
		latest := min(at+usable, to-left*even/2) // a sheet of next to nothing is no use
		earliest := min(latest, max(at+even/2, to-left*usable))
		out = append(out, quietest(earliest, latest, at+even, crossed))
	}
	return append(out, to)
}

// quietest returns the place between two that crosses the least, of several the one
// nearest to where it is best.
func quietest(from, to, best float64, crossed func(float64) float64) float64 {
	const places = 100
	out, least, off := to, math.Inf(1), 0.0
	for i := range places + 1 {
		at := from + (to-from)*float64(i)/places
		cost, away := crossed(at), math.Abs(at-best)
		if cost < least || cost == least && away < off {
			out, least, off = at, cost, away
		}
	}
	return out
}

// crossings returns how much a cut at a place crosses: a text or symbol that is parted
// is worse than a line.
func crossings(items []draw.Item, along func(geom.Point) float64) func(float64) float64 {
	const words = 10
	return func(at float64) float64 {
		sum := 0.0
		for _, item := range items {
			if along(item.Bounds.Min) >= at || along(item.Bounds.Max) <= at {
				continue
			}
			if item.Shape != nil {
				sum++
			} else {
				sum += words
			}
		}
		return sum
	}
}
