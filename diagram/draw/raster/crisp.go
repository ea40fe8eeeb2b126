package raster

import (
	"math"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// crisp returns the path, in pixels, with those of its lines that run along an
// axis moved to the nearest whole pixel, so that the sides of a rounded
// rectangle are as sharp as those of a sharp one. Curves follow their ends.
func crisp(path draw.Path) draw.Path {
	shifts := lineShifts(path)
	var out draw.Path
	var start, last geom.Point // shifts of the piece's beginning and of the last vertex
	vertex := 0
	path.Each(func(verb draw.Verb, points []geom.Point) {
		if verb == draw.Close {
			out.Close()
			last = start
			return
		}
		shift := shifts[vertex]
		vertex++
		to := points[len(points)-1].Add(shift)
		switch verb {
		case draw.Move:
			out.MoveTo(to)
			start = shift
		case draw.To:
			out.LineTo(to)
		case draw.Curve:
			out.CurveTo(points[0].Add(last), points[1].Add(shift), to)
		}
		last = shift
	})
	return out
}

// lineShifts returns for each vertex of the path the step that puts the lines
// along an axis that meet in it on whole pixels.
func lineShifts(path draw.Path) []geom.Point {
	var shifts []geom.Point
	var at, first geom.Point
	begin := 0
	settle := func(i, j int, a, b geom.Point) {
		switch {
		case level(a.X, b.X) && !level(a.Y, b.Y):
			shifts[i].X, shifts[j].X = math.Round(a.X)-a.X, math.Round(a.X)-b.X
		case level(a.Y, b.Y) && !level(a.X, b.X):
			shifts[i].Y, shifts[j].Y = math.Round(a.Y)-a.Y, math.Round(a.Y)-b.Y
		}
	}
	path.Each(func(verb draw.Verb, points []geom.Point) {
		if verb == draw.Close {
			settle(len(shifts)-1, begin, at, first)
			at = first
			return
		}
		to := points[len(points)-1]
		shifts = append(shifts, geom.Point{})
		if verb == draw.Move {
			begin, first = len(shifts)-1, to
		} else if verb == draw.To {
			settle(len(shifts)-2, len(shifts)-1, at, to)
		}
		at = to
	})
	return shifts
}

// level reports whether two coordinates, in pixels, are one line's.
func level(a, b float64) bool { return a-b < 1e-3 && b-a < 1e-3 }
