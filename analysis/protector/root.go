package protector

import "math"

const (
	near   = tolerance / 4 // of a reading to the level, as a logarithm
	probes = 24            // at most, in one search
)

// point is a place and the value of a function there.
type point struct{ x, y float64 }

// root finds where a rising function is zero between low and high, within
// near. It begins at a point whose value is known, goes on by the slope, and
// takes the false position (Illinois rule) as soon as the zero lies between two
// points. It returns false if the function has no zero there, or if that isn't
// found.
func root(f func(x float64) (float64, error), at point, slope, low, high float64) (float64, bool, error) {
	below, above := point{low, math.NaN()}, point{high, math.NaN()}
	var side int // on which the point before was
	for range probes {
		if math.Abs(at.y) <= near {
			return at.x, true, nil
		}
		if at.y < 0 && at.x >= high || at.y > 0 && at.x <= low {
			return at.x, false, nil
		}
		if at.y < 0 {
			if side < 0 {
				above.y /= 2
			}
			below, side = at, -1
		} else {
			if side > 0 {
				below.y /= 2
			}
			above, side = at, 1
		}
		x := at.x - at.y/slope
		if !math.IsNaN(below.y) && !math.IsNaN(above.y) {
			x = below.x - below.y*(above.x-below.x)/(above.y-below.y)
		}
		next, err := value(f, min(max(x, low), high))
		if err != nil {
			return 0, false, err
		}
		slope = max(flattest, (next.y-at.y)/(next.x-at.x))
		at = next
	}
	return at.x, false, nil
}

// flattest is the least slope that is believed: from there the next place is
// an end of the range.
const flattest = 1e-3

func value(f func(float64) (float64, error), x float64) (point, error) {
	y, err := f(x)
	return point{x, y}, err
}
