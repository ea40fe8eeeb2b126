package route

import (
	"cmp"
	"math"
	"slices"

	"clampline/diagram/geom"
)

// Where lines from one side of a bar run across to their columns, in mm.
const (
	firstLane = 15 // from the bar: below its tag
	lanePitch = 4
)

// lane is the place of a line among those that run beside it.
type lane struct{ number, count int }

// assignLanes numbers, for each side of each bar and for each direction, the
// lines that run across, the farthest first.
func assignLanes(runs []Run, taps [][2]tap) []lane {
	lanes := make([]lane, len(runs))
	across := make([]crossing, 0, len(runs))
	for i, run := range runs {
		from, to := taps[i][0], taps[i][1]
		if run.From.Bar == 0 {
			continue
		}
		if by := dot(to.at.Sub(from.at), run.From.axis()); math.Abs(by) > straight {
			across = append(across, crossing{i, run.From.Bar, from.out, by})
		}
	}
	slices.SortFunc(across, crossing.compare)
	for first := 0; first < len(across); {
		next := first + 1
		for next < len(across) && across[next].beside(across[first]) {
			next++
		}
		for k, c := range across[first:next] {
			lanes[c.run] = lane{k, next - first}
		}
		first = next
	}
	return lanes
}

// crossing is a line that leaves a bar and runs along it by some millimetres.
type crossing struct {
	run int
	bar int
	out geom.Point
	by  float64
}

func (c crossing) compare(d crossing) int {
	if c.bar != d.bar {
		return cmp.Compare(c.bar, d.bar)
	}
	return cmp.Or(
		cmp.Compare(c.out.X, d.out.X), cmp.Compare(c.out.Y, d.out.Y),
		cmp.Compare(math.Copysign(1, c.by), math.Copysign(1, d.by)),
		cmp.Compare(math.Abs(d.by), math.Abs(c.by)), cmp.Compare(c.run, d.run),
	)
}

func (c crossing) beside(d crossing) bool {
	return c.bar == d.bar && c.out == d.out && math.Signbit(c.by) == math.Signbit(d.by)
}

// level returns where between low and high a line in the lane runs across:
// it leaves the terminal at start, and low lies at the end of its stub.
func (l lane) level(start, low, high float64) float64 {
	first := clamp(start+firstLane, low, math.Max(low, (low+high)/2))
	pitch := math.Min(lanePitch, (high-first)/math.Max(1, float64(l.count)))
	return first + pitch*float64(l.number)
}
