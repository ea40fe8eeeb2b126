package scene

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// snapReach is how far away a part may lie for others to line up with it, in
// mm: beyond, nobody sees the two together.
const snapReach = 300

// edgeLeast is how long two parts must be for their edges to line up: the
// edges of small symbols mean nothing.
const edgeLeast = 20

// Snap returns by how much to move the box of a moving part, beyond where the
// pointer has put it, so that it lines up: its middle or an edge with that of
// another part within slack, or else its middle with the grid of the given
// pitch (zero: no grid). Each direction is settled on its own. The segments
// are the guides to show. Parts in exclude are passed over.
//
// Hand it the box of the part under the pointer, not of all that moves: grids
// hold for middles.
func (s *Scene) Snap(moving geom.Rect, exclude map[diagram.ID]bool, slack, grid float64) (geom.Point, []geom.Segment) {
	level, upright := fit{slack: slack}, fit{slack: slack}
	for i := range s.parts {
		q := &s.parts[i]
		if away(moving, q.box.Center()) > snapReach || exclude[q.id] {
			continue
		}
		level.compare(moving.Min.X, moving.Max.X, q.box.Min.X, q.box.Max.X, i)
		upright.compare(moving.Min.Y, moving.Max.Y, q.box.Min.Y, q.box.Max.Y, i)
	}
	delta := geom.Pt(
		level.delta(moving.Center().X, grid),
		upright.delta(moving.Center().Y, grid),
	)
	moved := moving.Move(delta)
	var guides []geom.Segment
	if level.found {
		guides = append(guides, upGuide(level.at, moved, s.parts[level.part].box))
	}
	if upright.found {
		guides = append(guides, acrossGuide(upright.at, moved, s.parts[upright.part].box))
	}
	return delta, guides
}

// fit is the best way to line up along one axis so far.
type fit struct {
	slack float64
	found bool
	by    float64 // how far to move
	at    float64 // where the two then line up
	part  int
}

// compare offers the middles of two extents, and their edges where both are
// long.
func (f *fit) compare(low, high, otherLow, otherHigh float64, part int) {
	f.offer((low+high)/2, (otherLow+otherHigh)/2, part)
	if high-low >= edgeLeast && otherHigh-otherLow >= edgeLeast {
		f.offer(low, otherLow, part)
		f.offer(high, otherHigh, part)
	}
}

func (f *fit) offer(from, to float64, part int) {
	by := to - from
	if math.Abs(by) <= f.slack && (!f.found || math.Abs(by) < math.Abs(f.by)) {
		f.found, f.by, f.at, f.part = true, by, to, part
	}
}

// delta returns how far to move: into line, or else onto the grid.
func (f *fit) delta(middle, grid float64) float64 {
	if f.found || grid <= 0 {
		return f.by
	}
	return math.Round(middle/grid)*grid - middle
}

// guideOver is how far a guide reaches beyond what it lines up, in mm.
const guideOver = 4

func upGuide(x float64, a, b geom.Rect) geom.Segment {
	both := a.Union(b)
	return geom.Segment{A: geom.Pt(x, both.Min.Y-guideOver), B: geom.Pt(x, both.Max.Y+guideOver)}
}

func acrossGuide(y float64, a, b geom.Rect) geom.Segment {
	both := a.Union(b)
	return geom.Segment{A: geom.Pt(both.Min.X-guideOver, y), B: geom.Pt(both.Max.X+guideOver, y)}
}
