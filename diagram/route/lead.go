package route

import (
	"math"

	"clampline/diagram/geom"
)

// straight is how far two terminals may be out of line for their line still to
// count as straight, in mm: less than anybody can see.
const straight = 1e-6

// leader leads the lines of one sheet, one after the other.
type leader struct {
	obstacles Obstacles
	met       map[heading]int // lines that have chosen a direction where any would do
	points    []geom.Point    // of all lines, each of which has its own stretch
}

// heading is a direction in which lines leave a point.
type heading struct{ at, out geom.Point }

func (t tap) heading() heading { return heading{t.at, t.out} }

// lead draws the line between two taps. Where a tap leaves in any direction,
// one that no other line has is taken, of these the one with the fewest bends,
// then the shortest.
func (l *leader) lead(from, to tap, lane lane) geom.Polyline {
	if from.out != (geom.Point{}) && to.out != (geom.Point{}) {
		return l.leadFixed(from, to, lane)
	}
	var best choice
	for _, a := range directions(from) {
		for _, b := range directions(to) {
			line := l.leadFixed(a, b, lane)
			next := choice{line, a, b, l.met[a.heading()] + l.met[b.heading()], line.Length()}
			if best.line == nil || next.betterThan(best) {
				best = next
			}
		}
	}
	l.meet(from, best.from)
	l.meet(to, best.to)
	return best.line
}

// meet notes that a line leaves the chosen way where any would have done.
func (l *leader) meet(open, chosen tap) {
	if open.out == (geom.Point{}) {
		l.met[chosen.heading()]++
	}
}

// choice is one way to lead a line.
type choice struct {
	line     geom.Polyline
	from, to tap
	met      int
	length   float64
}

func (c choice) betterThan(d choice) bool {
	if c.met != d.met {
		return c.met < d.met
	}
	if len(c.line) != len(d.line) {
		return len(c.line) < len(d.line)
	}
	return c.length < d.length-straight
}

func directions(t tap) []tap {
	if t.out != (geom.Point{}) {
		return []tap{t}
	}
	out := make([]tap, 4)
	for i := range out {
		out[i] = tap{t.at, geom.Turn(i).Apply(geom.Pt(0, 1)), t.stub}
	}
	return out
}

// leadFixed turns the sheet so that the line leaves downward, takes the first
// shape that nothing blocks, or the first of all, and turns it back.
func (l *leader) leadFixed(from, to tap, lane lane) geom.Polyline {
	turns := turnsToDown(from.out)
	frame, back := geom.Turn(turns), geom.Turn(-turns)
	leg := leg{frame.Apply(from.at), frame.Apply(to.at), frame.Apply(to.out), from.stub, to.stub, lane}
	first := leg.shape(0)
	if l.obstacles == nil || first.free(back, l.obstacles) {
		return l.line(first, back)
	}
	for i := 1; i < shapes; i++ {
		if next := leg.shape(i); next.free(back, l.obstacles) {
			return l.line(next, back)
		}
	}
	return l.line(first, back)
}

// line turns a shape back into the line it stands for.
func (l *leader) line(b bent, back geom.Affine) geom.Polyline {
	first := len(l.points)
	for _, p := range b.points[:b.count] {
		l.points = append(l.points, back.Apply(p))
	}
	return l.points[first:len(l.points):len(l.points)]
}

// turnsToDown returns by how many quarter turns the direction comes to point
// downward.
func turnsToDown(out geom.Point) int {
	switch {
	case out.X > 0.5:
		return 1
	case out.Y < -0.5:
		return 2
	case out.X < -0.5:
		return 3
	}
	return 0
}

// bent is a line of up to six points.
type bent struct {
	points [6]geom.Point
	count  int
}

func bend(points ...geom.Point) bent {
	var b bent
	for _, p := range points {
		b.add(p)
	}
	return b
}

// add appends a point, unless the line stands there already; what goes on in
// the same direction is joined.
func (b *bent) add(p geom.Point) {
	if b.count > 0 && b.points[b.count-1] == p {
		return
	}
	if b.count > 1 {
		last, before := b.points[b.count-1], b.points[b.count-2]
		along := last.Sub(before)
		step := p.Sub(last)
		if along.X*step.Y == along.Y*step.X && dot(along, step) > 0 {
			b.points[b.count-1] = p
			return
		}
	}
	b.points[b.count] = p
	b.count++
}

// clearance is what a line may keep from its own parts at either end without
// being in their way, in mm.
const clearance = 0.75

// free reports whether nothing blocks the line between its two parts.
func (b *bent) free(back geom.Affine, obstacles Obstacles) bool {
	for i := 1; i < b.count; i++ {
		from, to := b.points[i-1], b.points[i]
		length := math.Abs(from.X-to.X) + math.Abs(from.Y-to.Y)
		step := to.Sub(from).Mul(math.Min(clearance, length/2) / length)
		if i == 1 {
			from = from.Add(step)
		}
		if i == b.count-1 {
			to = to.Sub(step)
		}
		if obstacles.Blocked(back.Apply(from), back.Apply(to)) {
			return false
		}
	}
	return true
}
